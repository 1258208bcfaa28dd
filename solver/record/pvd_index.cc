#include "solver/record/pvd_index.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/whole_file.h"

#include <algorithm>
#include <vector>

namespace throughbend
{
void PvdIndex::put(const std::string &name, const double time)
{
  times_[name] = time;
  write();
}

void PvdIndex::hold(std::map<std::string, double> times)
{
  times_ = std::move(times);
  if (!times_.empty())
    write();
  else
    std::filesystem::remove(file_);
}

void PvdIndex::write() const
{
  std::vector<std::pair<double, std::string>> in_order;
  for (const auto &[file, when] : times_)
    in_order.emplace_back(when, file);
  std::sort(in_order.begin(), in_order.end());

  std::string text = "<?xml version=\"1.0\"?>\n"
                     "<VTKFile type=\"Collection\" version=\"0.1\" "
                     "byte_order=\"LittleEndian\">\n  <Collection>\n";
  for (const auto &[when, file] : in_order)
    text += "    <DataSet timestep=\"" + number_text(when) +
            "\" group=\"\" part=\"0\" file=\"" + file + "\"/>\n";
  write_whole_file(file_, text + "  </Collection>\n</VTKFile>\n", FolderLink::refuse);
}
} // namespace throughbend
