#include "inputs/report_words.h"

#include "inputs/input_error.h"

#include <fmt/core.h>

#include <filesystem>
#include <sstream>

namespace throughbend
{
namespace
{
constexpr std::size_t most_listed = 1000, most_pictures = 100;
constexpr double      longest_travel = 10000; // [mm], as ram.stroke at most

std::vector<double> travels_of(const std::string &text)
{
  std::vector<double> travels;
  std::istringstream  parts(text);
  for (std::string part; std::getline(parts, part, ',');)
  {
    const Quantity travel = read_quantity(part, UnitKind::length);
    if (!travel.ok())
      throw InputError("--at " + text + ": " + travel.error +
                       ". Give travels with their unit: --at \"20 mm, 40 mm\"");
    if (travel.value < 0)
      throw InputError("--at " + text + ": a travel cannot be below 0.");
    if (travel.value > longest_travel)
      throw InputError("--at " + text + ": no ram's stroke is longer than 10 m.");
    if (travels.size() == most_pictures)
      throw InputError("--at: at most 100 travels.");
    travels.push_back(travel.value);
  }
  return travels;
}
} // namespace

Verb report_verb()
{
  Verb verb;
  verb.name    = "report";
  verb.operand = "RUN";
  verb.summary = "pictures and one page to look at, from the folder of a run or a study";
  verb.about =
      "Makes one HTML page that holds everything it shows: the finding and why, key "
      "figures "
      "with their margins, the pass to play back, charts, inputs, and how good the numbers "
      "are. Pictures of the strain go to RUN/pictures. Several runs are compared on one "
      "page: force curves together, and every key figure with its difference from the "
      "first run. Of more than 12 runs the page holds the comparison alone. With --index "
      "several runs are listed on a page that leads to each one's own page. A run that "
      "failed or "
      "was interrupted is reported as far as it got. Of the folder of a study, which map, "
      "limit, spread or choose left, it makes the page of the whole study: map, limits or "
      "histograms, and its passes to look at.";
  verb.options = {
      {"page",
       "FILE",
       "where the page goes; default RUN/report.html, of several runs comparison.html here",
       {}},
      {"index",
       "FILE",
       "lists the runs on a page with picture, finding and lesson each, and makes each "
       "one's own page RUN/report.html",
       {}},
      {"class",
       "FILE",
       "of a map: also makes a page for a class, with sliders over up to three keys; it "
       "always shows a computed pass",
       {}},
      {"title", "TEXT", "heading of an index or a comparison", {}},
      {"at",
       "TRAVELS",
       "travels of the pictures, as \"20 mm, 40 mm\"; default: on the way to the peak "
       "force, "
       "at it, at the end, and released",
       {}},
      {"no-pictures", "", "the page alone, no PNG files", {}},
      {"overwrite",
       "",
       "replace a file that is in the page's place and was not made by report; its own "
       "pages it replaces anyway",
       {}},
      units_option("first; the page has both; default metric")};
  verb.most_operands = most_listed;
  return verb;
}

bool compares_only(const ReportOrder &order)
{
  return order.index.empty() && order.runs.size() > most_played;
}

ReportOrder report_order(const GivenWords &given)
{
  ReportOrder order;
  order.runs = given.operands;
  if (order.runs.empty())
    throw InputError(
        "report of which run? Name its folder: throughbend report runs/my-case");
  order.index = given.value("index");
  if (given.has("index") && order.index.empty())
    throw InputError("--index names no file: --index gallery.html");
  order.class_page = given.value("class");
  if (given.has("class") && order.class_page.empty())
    throw InputError("--class names no file: --class class.html");
  if (given.has("class") && (order.runs.size() > 1 || !order.index.empty()))
    throw InputError("--class makes a page of one study. Name that study alone, without "
                     "--index.");
  order.title = given.value("title");
  if (!order.index.empty() && given.has("page"))
    throw InputError("--index makes each run's page RUN/report.html, so --page has no use "
                     "with it. Leave one of them out.");
  if (order.index.empty() && order.runs.size() == 1 && !order.title.empty())
    throw InputError("the page of one run has its case's title; --title is for an index or "
                     "a comparison.");
  order.page = given.value(
      "page", order.runs.size() == 1
                  ? (std::filesystem::path(order.runs.front()) / "report.html").string()
                  : "comparison.html");
  order.at       = travels_of(given.value("at"));
  order.pictures = given.has("no-pictures") ? Pictures::left_out : Pictures::drawn;
  order.units    = units_of(given);
  order.foreign  = given.has("overwrite") ? ForeignFile::replace : ForeignFile::keep;
  if (order.pictures == Pictures::left_out && !order.at.empty())
    throw InputError(
        "--at says at which travels pictures are drawn, and --no-pictures that "
        "there are none. Leave one of them out.");
  return order;
}
} // namespace throughbend
