// The companion that makes reports: loads VTK, which the front program does without.
// Started by it with the words behind `report`.

#include "inputs/guarded.h"
#include "inputs/input_error.h"
#include "postprocess/index_page.h"
#include "postprocess/report_page.h"
#include "postprocess/saved_file.h"

#include <algorithm>
#include <iostream>

namespace throughbend
{
namespace
{
void say(const Report &made, const std::string &page)
{
  for (const std::string &note : made.notes)
    std::cerr << "note: " << note << '\n';
  std::cout << "page      " << page << '\n';
}

void say_pictures(const ReportOrder &order)
{
  if (order.pictures == Pictures::drawn)
    for (const std::string &run : order.runs)
      if (std::filesystem::exists(std::filesystem::path(run) / "pictures"))
        std::cout << "pictures  " << (std::filesystem::path(run) / "pictures").string()
                  << '\n';
}

/// One page, of one run or of several compared.
void make_page(const ReportOrder &order)
{
  std::vector<ToldRun> all;
  for (const std::string &run : order.runs)
    all.push_back(tell_run(run, order, ReaderUnits(order.units)));
  const Report made = make_report(all, order.title, order.units);
  save_file(order.page, made.page);
  say(made, order.page);
  say_pictures(order);
}

/// A page of each run's own, and one that leads to them.
void make_index(const ReportOrder &order)
{
  const std::filesystem::path folder = std::filesystem::path(order.index).parent_path();
  if (!folder.empty() && !std::filesystem::is_directory(folder))
    throw InputError(order.index + ": there is no folder " + folder.string() +
                     " for it. Make it first.");
  IndexPage index(order.index, order.title, order.units);
  for (const std::string &run : order.runs)
  {
    const ToldRun     told = tell_run(run, order, ReaderUnits(order.units));
    const Report      made = make_report({told}, "", order.units);
    const std::string page = (std::filesystem::path(run) / "report.html").string();
    save_file(page, made.page);
    say(made, page);
    index.add(told, page);
  }
  save_file(order.index, index.html());
  std::cout << "index     " << order.index << '\n';
}

ExitCode report(const std::vector<std::string> &words)
{
  const GivenWords given = given_words(report_verb(), words);
  if (given.help)
    throw InputError(
        "throughbend-report only makes reports; call throughbend report --help.");
  const ReportOrder order = report_order(given);
  if (order.index.empty())
    make_page(order);
  else
    make_index(order);
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
