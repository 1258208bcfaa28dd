#include "postprocess/verbs/report_words.h"

#include "inputs/text/input_error.h"

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
  verb.summary = "pictures and an HTML page of a run or a study";
  verb.about =
      "Makes one HTML page that needs no other file: the finding and its reasons, key "
      "figures with their margins, the pass to play back, charts, inputs, and the "
      "accuracy of the figures. A 3D pass can be turned in space. Pictures of the "
      "strain go to RUN/pictures. Several runs are compared on one page: force curves "
      "together, and every key figure with its difference from the first run. For more "
      "than 12 runs the page holds only the comparison. With --index the page lists the "
      "runs and links to a page for each. A run that failed or was interrupted is "
      "reported as far as it got. For the folder of a study (map, limit, spread, "
      "choose) it makes a page of the study: map, limits or histograms, and its passes "
      "to play back.";
  verb.options = {
      {"page",
       "FILE",
       "file of the page; default RUN/report.html, or comparison.html here for several "
       "runs",
       {}},
      {"index",
       "FILE",
       "list the runs on one page, each with picture, finding and lesson, and make a "
       "page RUN/report.html for each",
       {}},
      {"class",
       "FILE",
       "for a map: also make a page for a class, with sliders over up to three keys. It "
       "always shows a computed pass",
       {}},
      {"title", "TEXT", "heading of an index or a comparison", {}},
      {"at",
       "TRAVELS",
       "travels of the pictures, for example \"20 mm, 40 mm\"; default: half way to the "
       "peak force, at the peak, at the end, and released",
       {}},
      {"no-pictures", "", "make only the page, no PNG files", {}},
      {"overwrite",
       "",
       "replace a file of that name that was not made by report. Pages made by report "
       "are always replaced",
       {}},
      units_option("first; the page has both; default metric")};
  verb.most_operands = most_listed;
  return verb;
}

bool compares_only(const ReportOrder &order)
{
  return order.index.empty() && order.runs.size() > most_played;
}

ReportOrder report_order(const VerbArguments &given)
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
