#include "solver/record/opening_record.h"

#include "inputs/text/csv_table.h"

namespace throughbend
{
OpeningRecord::OpeningRecord(const std::filesystem::path &file, const Flaws &flaws)
    : out_(file, GrowingFile::Start::anew)
{
  std::vector<std::string> heads = {"step", "kind", "travel [mm]", "ram force [N]"};
  for (std::size_t i = 0; i < most_flaws; ++i)
    if (flaws.each[i].present())
    {
      heads.push_back(flaw_section(i) + " opening [mm]");
      heads.push_back(flaw_section(i) + " overlap [mm]");
    }
  out_.put(csv_line(heads));
}

void OpeningRecord::add(const PassSample &sample)
{
  std::vector<std::string> cells = {std::to_string(sample.step), to_text(sample.kind),
                                    number_text(sample.travel),
                                    number_text(sample.ram_force)};
  for (const FlawGap &gap : sample.flaws)
  {
    cells.push_back(number_text(gap.opening));
    cells.push_back(number_text(gap.overlap));
  }
  out_.put(csv_line(cells));
}
} // namespace throughbend
