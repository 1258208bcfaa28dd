// Many runs as one table, and two compared: nothing that was named is dropped in silence,
// and a difference is told only where the computation alone cannot make it. All runs are
// made up.

#include "inputs/text/csv_table.h"
#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/gathered_runs.h"
#include "postprocess/runs/run_comparison.h"
#include "postprocess/runs/run_standing.h"
#include "postprocess/runs/run_table.h"
#include "solver/record/run_format.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
/// run.json of a coupon that went through (invented figures).
Json sound_run()
{
  return Json::parse(R"({
    "program": "throughbend", "format": "1.0", "state": "finished", "title": "a pass",
    "finding": {"outcome": "through", "jam": null, "held_by": null, "where": null,
                "travel_mm": 110, "ram_force_N": 3, "beyond_capacity": null, "events": [],
                "verdict": {"1": {"length_mm": 110},
                            "words": "THROUGH: clear after {1} of travel."}},
    "metal": {"answer": "within", "account": {"words": "The base plate bears it."}},
    "key_figures": {"peak_ram_force_N": 30000, "peak_ram_force_travel_mm": 39,
                    "peak_ram_force_ripple_N": 0, "largest_travel_mm": 110,
                    "peak_outer_strain_log": 0.22, "peak_outer_elongation": 0.24607673,
                    "peak_outer_strain_remark": null, "nominal_elongation": 0.2,
                    "largest_plastic_strain": 0.25, "largest_walk_mm": 0},
    "release": {"completed": true, "right_springback_deg": 1.6,
                "right_angle_loaded_deg": 89, "right_angle_free_deg": 87.4},
    "numerical_quality": {"accuracy": "sound", "worst_energy_error": 0.004,
                          "worst_equilibrium_error": 0.001},
    "made_with": {"version": "0.1.0", "git_revision": "abc", "case_hash": "0123"},
    "case": {"coupon.length": "160 mm", "coupon.width": "38 mm",
             "coupon.thickness": "10 mm", "material.law": "perfect",
             "material.yield": "250 MPa", "plunger.width": "40 mm",
             "shoulders.radius": "20 mm", "shoulders.opening": "63.2 mm",
             "ram.capacity": "80 kN", "ram.stroke": "120 mm"}})");
}

void put_run(const fs::path &folder, const Json &run)
{
  fs::create_directories(folder);
  put_content(folder / "run.json", run.dump(2));
}

struct Table
{
  explicit Table(const std::vector<RunRecord> &runs,
                 const FigureChoice            choice = FigureChoice::usual)
      : text(table_csv(runs, choice)), lines(csv_lines(text).lines)
  {
  }
  const std::vector<std::string> &heads() const { return lines.front().cells; }
  std::string                     cell(const std::size_t row, const std::string &head) const
  {
    const auto found = std::find(heads().begin(), heads().end(), head);
    return found == heads().end() ? "no such column"
                                  : lines.at(row + 1).cells.at(
                                        static_cast<std::size_t>(found - heads().begin()));
  }

  std::string          text;
  std::vector<CsvLine> lines;
};

const FigurePair *pair_named(const RunComparison &compared, const std::string &name)
{
  for (const FigurePair &pair : compared.figures)
    if (pair.name == name)
      return &pair;
  return nullptr;
}

struct TwoRuns
{
  Json first = sound_run(), second = sound_run();

  RunComparison compared() const
  {
    const ScratchFolder scratch;
    put_run(scratch / "first", first);
    put_run(scratch / "second", second);
    return compared_runs(read_run_summary(scratch / "first"),
                         read_run_summary(scratch / "second"));
  }
  FigurePair figure(const std::string &name) const
  {
    const RunComparison     all  = compared();
    const FigurePair *const pair = pair_named(all, name);
    if (pair == nullptr)
      throw std::runtime_error("no figure " + name);
    return *pair;
  }
};
} // namespace

TEST_CASE("keys that differ come first, then the finding, then figures", "[gather]")
{
  const ScratchFolder scratch;
  Json                thicker                = sound_run();
  thicker["case"]["coupon.thickness"]        = "11 mm";
  thicker["case"]["ram.capacity"]            = "100 kN";
  thicker["case"]["case.title"]              = "=cmd|' /C calc'!A0";
  thicker["key_figures"]["peak_ram_force_N"] = 36000.5;
  thicker["fit"]                             = {{"wire_goes_in", false}};
  put_run(scratch / "a", sound_run());
  put_run(scratch / "b", thicker);
  const GatheredRuns gathered = gathered_runs({scratch.path().string()});
  CHECK(gathered.left_out.empty());
  REQUIRE(gathered.runs.size() == 2);
  const Table                    table(gathered.runs);
  const std::vector<std::string> begin(table.heads().begin(), table.heads().begin() + 11);
  CHECK(begin == std::vector<std::string>{"throughbend run", "case.title",
                                          "coupon.thickness [mm]", "ram.capacity [N]",
                                          "state", "outcome", "held", "beyond", "events",
                                          "metal", "accuracy"});
  CHECK(table.heads()[11] == "peak_ram_force_N");
  CHECK(table.heads().back() == "verdict");
  CHECK(table.cell(0, "throughbend run") == (scratch / "a").string());
  CHECK(table.cell(1, "coupon.thickness [mm]") == "11");
  CHECK(table.cell(1, "ram.capacity [N]") == "100000");
  CHECK(table.cell(1, "case.title") == "'=cmd|' /C calc'!A0");
  CHECK(table.cell(1, "peak_ram_force_N") == "36000.5");
  CHECK(table.cell(0, "fit.wire_goes_in") == "-");
  CHECK(table.cell(1, "fit.wire_goes_in") == "false");
  CHECK(table.cell(0, "outcome") == "through");
  CHECK(table.cell(0, "held") == "-");
  CHECK(table.cell(0, "verdict") == "THROUGH: clear after 110.0 mm of travel.");
  CHECK(is_run_table(table.text));
  CHECK(is_run_table(table_csv(gathered.runs, FigureChoice::all)));
}

TEST_CASE("the table has the columns of the list", "[gather][formats]")
{
  const ScratchFolder scratch;
  Json                other         = sound_run();
  other["case"]["coupon.thickness"] = "9 mm";
  put_run(scratch / "a", sound_run());
  put_run(scratch / "b", other);
  const Table              table(gathered_runs({scratch.path().string()}).runs);
  const CsvTable           list = CsvTable::read(fs::path(THROUGHBEND_SOURCE_DIR) /
                                                 "solver/record/formats/columns.csv");
  std::vector<std::string> listed, heads;
  for (std::size_t i = 0; i < list.rows(); ++i)
    if (list.row(i)[0] == "gather --out")
      listed.push_back(list.row(i)[1]);
  // Of run.json every figure has its place in the schema.
  for (const std::string &head : table.heads())
  {
    const bool figure = head.find('.') != std::string::npos ||
                        std::isupper(static_cast<unsigned char>(head.back())) != 0 ||
                        head.find("_mm") != std::string::npos ||
                        sound_run()["key_figures"].contains(head);
    const std::string written = head == "coupon.thickness [mm]" ? "KEY"
                                : figure                        ? "FIGURE"
                                                                : head;
    if (heads.empty() || written != "FIGURE" || heads.back() != "FIGURE")
      heads.push_back(written);
  }
  CHECK(heads == listed);
}

TEST_CASE("every folder that was named is accounted for", "[gather]")
{
  const ScratchFolder scratch;
  const fs::path      runs = scratch / "runs";
  put_run(runs / "sound", sound_run());
  const auto state = [&](const char *name, const char *word)
  {
    Json run     = sound_run();
    run["state"] = word;
    run.erase("finding");
    put_run(runs / name, run);
  };
  state("live", "running");
  state("broken-off", "interrupted");
  state("failed", "failed");
  Json undecided                  = sound_run();
  undecided["finding"]["outcome"] = "undecided";
  put_run(runs / "undecided", undecided);
  Json newer      = sound_run();
  newer["format"] = "2.3";
  newer["made_with"].erase("version");
  put_run(runs / "newer", newer);
  Json next_minor      = sound_run();
  next_minor["format"] = "1.9";
  put_run(runs / "next-minor", next_minor);
  Json older = sound_run();
  older.erase("format");
  put_run(runs / "older", older);
  Json wrong       = sound_run();
  wrong["program"] = "another";
  put_run(runs / "foreign", wrong);
  Json spoilt                               = sound_run();
  spoilt["key_figures"]["peak_ram_force_N"] = "30 kN";
  put_run(runs / "spoilt", spoilt);
  put_run(runs / "cut-off", sound_run());
  fs::resize_file(runs / "cut-off/run.json", 300);
  fs::create_directories(runs / "notes");
  fs::create_directories(runs / "study");
  put_content(runs / "study/study.db", "");
  put_content(runs / "index.html", "");

  const GatheredRuns gathered = gathered_runs(
      {runs.string(), (runs / "sound").string(), (runs / "index.html").string()});
  std::vector<std::string> rows, without;
  for (const RunRecord &run : gathered.runs)
  {
    rows.push_back(run.name);
    if (!why_no_finding(run).empty())
      without.push_back(run.name);
  }
  CHECK(rows == std::vector<std::string>{"broken-off", "failed", "live", "next-minor",
                                         "sound", "undecided"});
  CHECK(without == std::vector<std::string>{"broken-off", "failed", "live", "undecided"});
  std::string left_out;
  for (const std::string &line : gathered.left_out)
    left_out += line + "\n";
  CHECK(gathered.left_out.size() == 7);
  CHECK_THAT(left_out,
             Contains("newer: its run.json is of form '2.3', and this program reads "
                      "form 1. Read it with the throughbend that made it, or push "
                      "its case again."));
  CHECK_THAT(left_out, Contains("older: its run.json has no number of its form"));
  CHECK_THAT(left_out, Contains("foreign: run.json in it was not written by throughbend"));
  CHECK_THAT(left_out, Contains("the text \"30 kN\", and a number is expected"));
  CHECK_THAT(left_out, Contains("cut-off: run.json cannot be read, it is cut off"));
  CHECK_THAT(left_out, Contains("notes: this is not a run"));
  CHECK_THAT(left_out, Contains("study: this is a study"));
  CHECK(gathered.passed_over.size() == 2); // a file, and the run that was named twice

  const Table table(gathered.runs);
  for (const std::size_t row : {0u, 1u, 2u, 5u})
  {
    INFO(row);
    CHECK(table.cell(row, "peak_ram_force_N") == "-");
    CHECK(table.cell(row, "metal") == "-");
  }
  CHECK(table.cell(4, "peak_ram_force_N") == "30000");
  CHECK(table.cell(2, "state") == "running");
  CHECK(table.cell(2, "outcome") == "-");
  CHECK(table.cell(5, "outcome") == "undecided");
}

TEST_CASE("what cannot be gathered at all is an error with a cure", "[gather]")
{
  const ScratchFolder scratch;
  CHECK_THROWS_WITH(gathered_runs({(scratch / "none").string()}),
                    Contains("there is no such folder"));
  CHECK_THROWS_WITH(gathered_runs({""}), Contains("there is no such folder"));
  CHECK_THROWS_WITH(gathered_runs({scratch.path().string()}),
                    Contains("none of the named folders is a run") &&
                        Contains("is not a run and contains none"));
}

TEST_CASE("a force that was followed without coming through is not what it takes",
          "[gather]")
{
  const ScratchFolder scratch;
  Json                run           = sound_run();
  run["finding"]["outcome"]         = "over-capacity";
  run["finding"]["held_by"]         = "squeezed";
  run["finding"]["beyond_capacity"] = {
      {"ends", "jammed"}, {"force_it_takes_N", 500000}, {"force_it_takes_travel_mm", 60}};
  put_run(scratch / "stuck", run);
  run["finding"]["beyond_capacity"]["ends"] = "through";
  put_run(scratch / "through", run);
  const GatheredRuns gathered = gathered_runs({scratch.path().string()});
  const Table        table(gathered.runs);
  const std::string  head = "finding.beyond_capacity.force_it_takes_N";
  CHECK(table.cell(0, head) == "-");
  CHECK(table.cell(0, "beyond") == "jammed");
  CHECK(table.cell(1, head) == "500000");
  CHECK(table.cell(1, "held") == "squeezed");
  const std::string text = table_text(gathered.runs, UnitSystem::metric);
  CHECK_THAT(text, Contains("force it takes") && Contains("500 kN"));
}

TEST_CASE("a table is known as ours only while nobody added to it", "[gather]")
{
  const ScratchFolder scratch;
  Json                other         = sound_run();
  other["case"]["coupon.thickness"] = "9 mm";
  put_run(scratch / "a", sound_run());
  put_run(scratch / "b", other);
  const std::string csv =
      table_csv(gathered_runs({scratch.path().string()}).runs, FigureChoice::usual);
  CHECK(is_run_table(csv));
  CHECK_FALSE(is_run_table("run,force\na,1\n"));
  CHECK_FALSE(is_run_table(""));
  std::string mine = csv;
  mine.insert(mine.find("state,"), "measured force [N],");
  CHECK_FALSE(is_run_table(mine));
  mine = csv;
  mine.insert(mine.find('\n'), ",my remarks");
  CHECK_FALSE(is_run_table(mine));
}

TEST_CASE("a figure differs only beyond what the computation may make of it", "[gather]")
{
  // Default mesh: 2 % of the force of either run.
  TwoRuns two;
  two.second["key_figures"]["peak_ram_force_N"] = 31000;
  CHECK(two.figure("peak ram force").standing == FigurePair::Standing::within_band);
  two.second["key_figures"]["peak_ram_force_N"] = 31500;
  CHECK(two.figure("peak ram force").standing == FigurePair::Standing::beyond_band);
  CHECK(two.figure("peak ram force").band == Approx(1230)); // 600 + 630, by hand
  CHECK_FALSE(two.compared().same());

  // The ripple of the record widens it, and so does an energy error of its own.
  two.first["key_figures"]["peak_ram_force_ripple_N"] = 300;
  CHECK(two.figure("peak ram force").standing == FigurePair::Standing::within_band);
  two.first["key_figures"]["peak_ram_force_ripple_N"]  = 0;
  two.first["numerical_quality"]["worst_energy_error"] = 0.03;
  CHECK(two.figure("peak ram force").band == Approx(1530)); // 900 + 630
  CHECK(two.figure("nominal elongation").standing == FigurePair::Standing::within_band);
  two.second["key_figures"]["nominal_elongation"] = 0.2000003; // 0.3937 in for 10 mm
  CHECK(two.figure("nominal elongation").standing == FigurePair::Standing::within_band);
  two.second["key_figures"]["nominal_elongation"] = 0.2001; // nothing computed it
  CHECK(two.figure("nominal elongation").standing == FigurePair::Standing::beyond_band);
}

TEST_CASE("no band is narrower than what was measured over the examples", "[gather]")
{
  const std::string text =
      content(fs::path(THROUGHBEND_SOURCE_DIR) / "tests/verify/figure_bands.md");
  struct Row
  {
    const char *measured, *figure;
    double      unit; ///< 0: per cent of the figure
  };
  for (const char *level : {"quick", "standard"})
  {
    const ScratchFolder scratch;
    Json                run               = sound_run();
    run["case"]["mesh.level"]             = level;
    run["key_figures"]["largest_walk_mm"] = 1;
    put_run(scratch / "a", run);
    const std::vector<ComparedFigure> figures =
        compared_figures(read_run_summary(scratch / "a"));
    for (const Row &row :
         {Row{"peak ram force [%]", "peak ram force", 0},
          Row{"travel of the peak [mm]", "travel of the peak ram force", 1},
          Row{"travel [mm]", "travel", 1},
          Row{"springback [%]", "springback of the right leg", 0},
          Row{"leg angle [deg]", "right leg, free", 1},
          Row{"walk [mm]", "sideways walk of the middle", 1}})
    {
      INFO(level << ": " << row.measured);
      const std::size_t line = text.find(std::string("| ") + row.measured + " | ");
      REQUIRE(line != std::string::npos);
      std::size_t at = line + 2 + std::string(row.measured).size() + 3;
      if (level == std::string("standard"))
        at = text.find(" | ", at) + 3;
      const double measured = std::stod(text.substr(at));
      const auto   figure   = std::find_if(figures.begin(), figures.end(),
                                           [&](const auto &f) { return f.name == row.figure; });
      REQUIRE(figure != figures.end());
      CHECK(figure->band.width >=
            (row.unit > 0 ? measured : measured / 100 * std::abs(figure->value)));
      CHECK(measured > 0);
    }
  }
}

TEST_CASE("error bars of a run take the place of the band of its mesh", "[gather]")
{
  TwoRuns two;
  two.first["error_bars"]["force_N"]["numerics"] = {
      {"down", -90}, {"up", 100}, {"whole", true}};
  CHECK(two.figure("peak ram force").band == Approx(120 + 600)); // 0.4 % energy error: 120
  two.first["error_bars"]["force_N"]["numerics"]["up"] = 400;
  CHECK(two.figure("peak ram force").band == Approx(1000));
  // A lower bound is no band.
  two.first["error_bars"]["force_N"]["numerics"]["whole"] = false;
  CHECK(two.figure("peak ram force").band == Approx(1200));
}

TEST_CASE("bodies are compared by the largest stretch of the whole face", "[gather]")
{
  TwoRuns two;
  for (Json *const run : {&two.first, &two.second})
  {
    (*run)["case"]["mesh.dimension"] = "3";
    (*run)["across_the_width"]       = {{"peak_face_strain_log", std::log1p(0.32)}};
    (*run)["key_figures"]["peak_face_strain_log"] = std::log1p(0.32);
  }
  two.second["key_figures"]["peak_face_strain_log"]      = std::log1p(0.35);
  two.second["across_the_width"]["peak_face_strain_log"] = std::log1p(0.35);
  const FigurePair face = two.figure("largest elongation of the convex face");
  CHECK(face.second - face.first == Approx(0.03));
  // By hand: 5 % of log strains 0.278 and 0.300 are 1.8 and 2.0 points, together 3.9.
  CHECK(face.standing == FigurePair::Standing::within_band);
  CHECK(face.band == Approx(0.0386).epsilon(0.01));
  CHECK(two.figure("the same at mid-width").first == Approx(0.24607673));
  // Bars are of the whole face.
  for (Json *const run : {&two.first, &two.second})
    (*run)["error_bars"]["outer_strain_log"]["numerics"] = {
        {"down", -0.1}, {"up", 0.1}, {"whole", true}};
  CHECK(two.figure("largest elongation of the convex face").standing ==
        FigurePair::Standing::within_band);
}

TEST_CASE("what is compared of a weld says that it is of the end", "[gather]")
{
  TwoRuns two;
  for (Json *const run : {&two.first, &two.second})
    (*run)["convex_face"] = {{"weld_centre_mm", 0},
                             {"at_end",
                              {{"gauge_mean_elongation", 0.2},
                               {"weld_and_haz_margin_mm", 20},
                               {"zones", {{"weld", {{"peak_strain_log", 0.3}}}}}}}};
  CHECK(two.figure("largest elongation of the weld at the end").first ==
        Approx(std::expm1(0.3)));
  CHECK(two.figure("mean elongation about the weld at the end").first == 0.2);
  CHECK(two.figure("weld and HAZ inside the bend at the end by").first == 20);
}

TEST_CASE("where no band is known every difference is told", "[gather]")
{
  TwoRuns two;
  two.second["case"]["mesh.layers"]             = "2";
  two.second["key_figures"]["peak_ram_force_N"] = 30001;
  const FigurePair pair                         = two.figure("peak ram force");
  CHECK(pair.standing == FigurePair::Standing::no_band);
  CHECK_THAT(pair.source, Contains("mesh.layers is 2"));
  CHECK(two.figure("travel").standing == FigurePair::Standing::within_band); // the same
  CHECK_FALSE(two.compared().same());

  TwoRuns toe;
  toe.second["key_figures"]["peak_outer_strain_log"]    = 0.2201;
  toe.second["key_figures"]["peak_outer_strain_remark"] = "at the toe of the cap";
  CHECK(toe.figure("largest elongation of the convex face").standing ==
        FigurePair::Standing::no_band);
}

TEST_CASE("a run without a finding has no figures to compare", "[gather]")
{
  TwoRuns two;
  two.second["state"] = "interrupted";
  two.second.erase("finding");
  const RunComparison compared = two.compared();
  CHECK(compared.figures.empty());
  REQUIRE(compared.obstacles.size() == 1);
  CHECK_THAT(compared.obstacles[0], Contains("second: it was interrupted"));
  CHECK_FALSE(compared.same());
}

TEST_CASE("answers are compared one by one, and figures of one run alone are told",
          "[gather]")
{
  TwoRuns two;
  CHECK(two.compared().same());
  two.second["metal"]["answer"] = "beyond";
  CHECK_FALSE(two.compared().same_answers());
  two.second = sound_run();
  two.second["finding"]["events"] =
      Json::array({{{"kind", "leg ironed"}, {"where", "left"}}});
  const RunComparison ironed = two.compared();
  CHECK_FALSE(ironed.same_answers());
  CHECK(ironed.answers.front().second == "through, leg ironed");
  two.second                               = sound_run();
  two.second["finding"]["outcome"]         = "over-capacity";
  two.second["finding"]["beyond_capacity"] = {{"ends", "through"},
                                              {"force_it_takes_N", 90000},
                                              {"largest_shoulder_force_N", 120000}};
  const RunComparison over                 = two.compared();
  REQUIRE(over.lone.size() == 2);
  CHECK(over.lone[0].name == "force it takes");
  CHECK_FALSE(over.lone[0].of_first);
}

TEST_CASE("keys of the computation are told apart from those of the shop", "[gather]")
{
  TwoRuns two;
  two.second["case"]["mesh.level"]       = "quick";
  two.second["case"]["coupon.thickness"] = "11 mm";
  const RunComparison compared           = two.compared();
  REQUIRE(compared.keys.size() == 2);
  CHECK_FALSE(is_numerical(*compared.keys[0].option));
  CHECK(compared.keys[0].values == std::vector<std::string>{"10 mm", "11 mm"});
  CHECK(is_numerical(*compared.keys[1].option));
  // Quick meshes have the wider band: 3 % and 2 %.
  CHECK(pair_named(compared, "peak ram force")->band == Approx(1500));
}

TEST_CASE("a compared figure has the value and the text of the report", "[gather]")
{
  const ScratchFolder scratch;
  put_run(scratch / "a", sound_run());
  const RunRecord run   = read_run_summary(scratch / "a");
  std::size_t     found = 0;
  for (const ReportFigure &reported : report_figures(run, ReaderUnits(UnitSystem::metric)))
    for (const ComparedFigure &compared : compared_figures(run))
      if (compared.name == reported.name)
      {
        INFO(compared.name);
        ++found;
        CHECK(compared.text(compared.value, UnitSystem::metric) == reported.first);
      }
  CHECK(found >= 6);
}

TEST_CASE("a report and a card refuse a run of another form, too", "[gather]")
{
  const ScratchFolder scratch;
  Json                run = sound_run();
  run["format"]           = "2.0";
  put_run(scratch / "a", run);
  CHECK_THROWS_WITH(read_run_record(scratch / "a"),
                    Contains("form '2.0'") && Contains("0.1.0"));
  run["format"] = "1.7"; // members were added
  put_run(scratch / "a", run);
  CHECK_NOTHROW(read_run_record(scratch / "a"));
}
