// The companion that makes reports: loads VTK, which the front program does without.
// Started by it with the words behind `report`.

#include "inputs/guarded.h"
#include "inputs/input_error.h"
#include "postprocess/report_page.h"
#include "postprocess/saved_file.h"

#include <algorithm>
#include <iostream>

namespace throughbend
{
namespace
{
ExitCode report(const std::vector<std::string> &words)
{
  const GivenWords given = given_words(report_verb(), words);
  if (given.help)
    throw InputError(
        "throughbend-report only makes reports; call throughbend report --help.");
  const ReportOrder order = report_order(given);
  const Report      made  = make_report(order);
  save_file(order.page, made.page);
  for (const std::string &note : made.notes)
    std::cerr << "note: " << note << '\n';
  std::cout << "page      " << order.page << '\n';
  if (order.pictures == Pictures::drawn)
    for (const std::string &run : order.runs)
      if (std::filesystem::exists(std::filesystem::path(run) / "pictures"))
        std::cout << "pictures  " << (std::filesystem::path(run) / "pictures").string()
                  << '\n';
  return ExitCode::finding;
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  return static_cast<int>(guarded(
      [&] {
        return report({argv + std::min(argc, 1), argv + argc});
      }));
}
