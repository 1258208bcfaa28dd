// The page as a whole: it holds what the run says, lets no text of a case act, and needs no
// display for its pictures.

#include "inputs/text/input_error.h"
#include "postprocess/drawing/colour_map.h"
#include "postprocess/report/report_page.h"
#include "tests/support/run_fixture.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

using namespace throughbend;
namespace fs = std::filesystem;

namespace
{
ReportOrder order_for(const std::vector<std::string> &words)
{
  return report_order(verb_arguments(report_verb(), words));
}

Report report_of(const std::vector<std::string> &words)
{
  const ReportOrder        order = order_for(words);
  std::vector<ReportedRun> all;
  for (const std::string &run : order.runs)
    all.push_back(reported_run(run, order, ReaderUnits(order.units)));
  for (const ReportedRun &reported : all)
    save_pictures(reported);
  return make_report(all, order.title, order.units);
}
} // namespace

TEST_CASE("a hostile title shows as text everywhere", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "<img src=x>";
  const std::string   title  = "</title></script><script>alert(1)</script>{{data}}";
  write_run(folder, title, title);
  const std::string page = report_of({folder.string()}).page;
  CHECK(has(page, "<h1>&lt;/title&gt;&lt;/script&gt;&lt;script&gt;alert(1)"));
  CHECK_FALSE(has(page, "<script>alert"));
  CHECK_FALSE(has(page, "<img src=x>"));
}

TEST_CASE("tool loads are those that the run judged, gaps those at mid-width", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  write_text(folder / "run.json",
             "{\"program\": \"throughbend\", \"state\": \"finished\", "
             "\"fit\": {\"nose_gap_largest_mm\": 2.9, \"nose_gap_end_mm\": 2.9}, "
             "\"across_the_width\": {\"nose_gap_mid_width_largest_mm\": 0.81, "
             "\"nose_gap_mid_width_end_mm\": 0.79, \"nose_gap_edge_end_mm\": 2.88}, "
             "\"tool_loads\": [{\"tool\": \"right shoulder\", \"hertz_pressure_MPa\": 987, "
             "\"largest_line_load_N_per_mm\": 875, \"travel_mm\": 50, \"yield_MPa\": 250, "
             "\"dent_mm\": 0.02}, {\"tool\": \"plunger\", \"hertz_pressure_MPa\": 765, "
             "\"yield_MPa\": null, \"dent_mm\": null}]}");
  const std::string page = report_of({folder.string(), "--no-pictures"}).page;
  CHECK(has(page, "987 MPa"));
  CHECK(has(page, "0.02 mm"));
  CHECK(has(page, "765 MPa")); // of the plunger, whose yield is not given
  CHECK(has(page, "0.81 mm"));
  CHECK(has(page, "2.88 mm")); // of the edge, by name
  CHECK_FALSE(has(page, "2.90 mm"));
}

TEST_CASE("a weld's figures stand in the table, and none without a weld", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  std::string page = report_of({folder.string(), "--no-pictures"}).page;
  CHECK_FALSE(has(page, "elongation of the"));
  CHECK_FALSE(has(page, "inside the bend"));

  write_text(folder / "run.json",
             "{\"program\": \"throughbend\", \"state\": \"finished\", "
             "\"finding\": {\"outcome\": \"through\"}, "
             "\"fit\": {\"nose_gap_end_mm\": 1.25, \"wire_diameter_mm\": 3.2, "
             "\"wire_goes_in\": false}, "
             "\"convex_face\": {\"gauge_length_mm\": 40, \"weld_centre_mm\": 0, "
             "\"at_end\": {\"gauge_mean_elongation\": 0.212, "
             "\"weld_and_haz_margin_mm\": -1.5, \"zones\": {\"weld\": "
             "{\"peak_elongation\": 0.187, \"peak_position_mm\": 5, "
             "\"mean_elongation\": 0.15, \"ductility_used\": 0.5, "
             "\"limit_measure\": \"local log strain\"}, "
             "\"left_haz\": {\"peak_elongation\": null}}}}}");
  page = report_of({folder.string(), "--no-pictures"}).page;
  CHECK(has(page, "elongation of the"));
  CHECK(has(page, "18.7 %"));
  CHECK(has(page, "mean 15.0 %"));
  CHECK(has(page, "50.0 % of its"));
  CHECK(has(page, "(local log strain)"));
  CHECK_FALSE(has(page, "left HAZ")); // null
  CHECK(has(page, "21.2 %"));
  CHECK(has(page, "-1.5 mm"));
  CHECK(has(page, "3.2 mm"));
}

TEST_CASE("the page's sentences: answers, loads, weld, what is missing", "[report][words]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  const auto          said   = [&](const std::vector<std::string> &there)
  {
    const std::string page = report_of({folder.string(), "--no-pictures"}).page;
    for (const std::string &words : there)
    {
      INFO(words);
      CHECK(has(page, words));
    }
  };
  write_run(folder, "t", "t");
  said({"<p class=\"sentence\">THROUGH: clear after 30.0 mm (1.181 in) of travel.</p>\n"
        "<p class=\"answer\">METAL, within: The base plate bears it.</p>",
        "through; metal within limits", "margin 50.0 % of the capacity",
        "This report is incomplete"});

  write_text(folder / "run.json",
             "{\"program\": \"throughbend\", \"state\": \"finished\", \"finding\": "
             "{\"outcome\": \"over-capacity\"}, \"metal\": {\"answer\": \"beyond\"}, "
             "\"numerical_quality\": {\"accuracy\": \"low\", \"accuracy_reasons\": "
             "[{\"words\": \"energy error 2.1 %\"}]}, "
             "\"fit\": {\"nose_gap_end_mm\": 1.25, \"wire_diameter_mm\": 3.2, "
             "\"wire_goes_in\": false}, "
             "\"convex_face\": {\"gauge_length_mm\": 40, \"weld_centre_mm\": 0, "
             "\"at_end\": {\"weld_and_haz_margin_mm\": -1.5, \"zones\": {\"weld\": "
             "{\"peak_elongation\": 0.187, \"peak_position_mm\": 5, "
             "\"mean_elongation\": 0.15, \"ductility_used\": 0.5, "
             "\"limit_measure\": \"local log strain\"}}}}, "
             "\"tool_loads\": [{\"tool\": \"right shoulder\", \"hertz_pressure_MPa\": 987, "
             "\"yield_MPa\": 250, \"dent_mm\": 0.02}, {\"tool\": \"plunger\", "
             "\"hertz_pressure_MPa\": 765, \"yield_MPa\": null, \"dent_mm\": null}]}");
  said({"over-capacity; metal beyond limits; low accuracy",
        "ACCURACY, low: energy error 2.1 %.", "largest elongation of the weld at the end",
        "mean 15.0 %; 50.0 % of its stated limit (local log strain)", "does not go in",
        "dent in the right shoulder, at most",
        "its yield is not given"}); // of the plunger: not cleared
  CHECK_FALSE(has(report_of({folder.string(), "--no-pictures"}).page,
                  "largest pressure on a shoulder")); // of one point: a spike

  fs::remove(folder / "run.json");
  fs::remove_all(folder / "fields");
  said({"run.json is not there", "fields/fields.pvd is not there"});
}

TEST_CASE("pictures are PNG files, made without a display", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  unsetenv("DISPLAY");
  report_of({folder.string(), "--at", "11 mm"});
  std::ifstream in(folder / "pictures" / "strain_0010.00_mm.png", std::ios::binary);
  char          start[8] = {};
  in.read(start, 8);
  CHECK(std::string(start, 8) == "\x89PNG\r\n\x1a\n"); // PNG specification, section 5.2

  // A second report replaces the pictures of the first, and nothing else in their folder.
  write_text(folder / "pictures" / "mine.png", "kept");
  report_of({folder.string(), "--at", "20 mm"});
  CHECK_FALSE(fs::exists(folder / "pictures" / "strain_0010.00_mm.png"));
  CHECK(fs::exists(folder / "pictures" / "strain_0020.00_mm.png"));
  CHECK(fs::exists(folder / "pictures" / "mine.png"));
}

TEST_CASE("without pictures the run's folder stays as it is", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const std::string page = report_of({folder.string(), "--no-pictures"}).page;
  CHECK_FALSE(fs::exists(folder / "pictures"));
  CHECK(has(page, "30.0 mm (1.181 in)"));
  CHECK(has(page, "badge-good"));
  CHECK(has(page, "margin 50.0 %")); // 2 kN of 4 kN
  CHECK_FALSE(has(page, "data:image/png"));
}

TEST_CASE("an incomplete run says so on its page", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  CHECK_FALSE(report_of({folder.string()}).notes.empty()); // tools
  fs::remove(folder / "run.json");
  fs::remove_all(folder / "fields");
  const Report report = report_of({folder.string()});
  CHECK(has(report.page, "run.json is not there"));
  CHECK(has(report.page, "fields/fields.pvd"));
  CHECK(has(report.page, "peak ram force")); // from travel.csv
  CHECK_FALSE(has(report.page, "data-viewer=\"1\""));
  CHECK(report.notes.size() == 3); // and the way out
}

TEST_CASE("the evidence is told in both families of units", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const auto page = [&](const std::string &units) {
    return report_of({folder.string(), "--no-pictures", "--units", units}).page;
  };
  CHECK(has(page("us"), "<p>Both ends are past.</p>")); // as it was recorded

  std::string json = content(folder / "run.json");
  const auto  tell = [&](const std::string &account)
  {
    const std::string before = "\"evidence\": ";
    std::string       text   = json;
    write_text(folder / "run.json",
               text.insert(text.find(before), "\"account\": " + account + ", "));
  };
  tell("{\"1\": {\"room_mm\": 12.7}, \"2\": {\"force_rise_N_per_mm\": 1000}, \"3\": "
       "{\"angle_deg\": 41}, \"4\": {\"force_N\": 44482.2}, \"5\": {\"length_mm\": 254}, "
       "\"words\": \"A leg of {1}, {2}, {3}, {4}, {5}.\"}");
  CHECK(has(page("metric"), "<p>A leg of 12.70 mm (0.500 in), "));
  CHECK(has(page("us"), "<p>A leg of 0.500 in (12.70 mm), "));
  CHECK(has(page("us"), ", 41.0 deg, 10.0 kip (44.5 kN), 10.000 in (254.0 mm).</p>"));
  // What this version doesn't know is told as it was recorded.
  tell("{\"1\": {\"colour\": 5}, \"words\": \"A leg of {1}.\"}");
  CHECK(has(page("us"), "<p>Both ends are past.</p>"));
}

TEST_CASE("the answers stand in one wording, that of run.json, in the reader's units",
          "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const auto page = [&](const std::string &units) {
    return report_of({folder.string(), "--no-pictures", "--units", units}).page;
  };
  CHECK(has(page("metric"), "30.0 mm (1.181 in)"));
  CHECK(has(page("metric"), "METAL, within: "));
  CHECK(has(page("us"), "1.181 in (30.0 mm)"));
  CHECK_FALSE(has(page("us"), "ACCURACY"));

  write_text(
      folder / "run.json",
      "{\"program\": \"throughbend\", \"state\": \"finished\", \"finding\": "
      "{\"outcome\": \"over-capacity\", \"verdict\": {\"1\": {\"force_N\": "
      "44482.2}, \"words\": \"OVER CAPACITY: it takes {1}.\"}}, \"metal\": "
      "{\"answer\": \"beyond\", \"account\": {\"1\": {\"room_mm\": 3.5}, "
      "\"words\": \"The flaw opens {1}.\"}}, \"numerical_quality\": "
      "{\"accuracy\": \"low\", \"accuracy_reasons\": [{\"words\": \"energy error 2.1 "
      "%\"}, {\"1\": {\"force_N\": 1000}, \"words\": \"{1} out of balance\"}]}}");
  const std::string bad = page("us");
  CHECK(has(bad, "10.0 kip (44.5 kN)"));
  CHECK(has(bad, "METAL, beyond: "));
  CHECK(has(bad, "0.138 in (3.50 mm)"));
  CHECK(has(bad, "ACCURACY, low: "));
  CHECK(has(bad, "2.1 %; 0.225 kip (1.00 kN)"));
  CHECK(has(bad, "badge-bad"));
}

TEST_CASE("several runs are compared, and where their inputs differ", "[report]")
{
  const ScratchFolder scratch;
  write_run(scratch.path() / "one", "t", "t");
  write_run(scratch.path() / "two", "another", "another");
  const std::string page = report_of({(scratch.path() / "one").string(),
                                      (scratch.path() / "two").string(), "--no-pictures"})
                               .page;
  CHECK(has(page, "Inputs that differ"));
  CHECK(has(page, "<th scope=\"row\">case.title</th><td>t</td><td>another</td>"));
  CHECK_FALSE(has(page, "<td>160 mm</td><td>160 mm</td>"));
}

TEST_CASE("figures of compared runs stand with their difference from the first", "[report]")
{
  // Made-up run of 2 000 N at 20 mm, and others of 3 000 N: by hand +1.00 kN, +50.0 %.
  const ScratchFolder      scratch;
  std::vector<std::string> words;
  for (int i = 0; i < 14; ++i)
  {
    const fs::path folder = scratch.path() / ("run" + std::to_string(i));
    write_run(folder, "t", "t");
    if (i > 0)
    {
      std::string text = content(folder / "run.json");
      text.replace(text.find("\"peak_ram_force_N\": 2000"), 24,
                   "\"peak_ram_force_N\": 3000");
      write_text(folder / "run.json", text);
    }
    words.push_back(folder.string());
  }
  words.push_back("--no-pictures");
  const auto count = [](const std::string &page, const std::string &text)
  {
    std::size_t n = 0;
    for (std::size_t at = page.find(text); at != std::string::npos;
         at             = page.find(text, at + 1))
      ++n;
    return n;
  };
  const std::string all = report_of(words).page;
  CHECK(count(all, "+1.00 kN, +50.0 %") == 13);
  // The first run stands in each of four tables of at most four others.
  CHECK(count(all, "<th scope=\"row\">peak ram force</th><td>2.00 kN (0.450 kip)</td>") ==
        4);
  CHECK(count(all, "Ram force of all runs along the travel</figcaption>") == 4);
  CHECK(count(all, "data-viewer=") == 0); // of so many runs the comparison alone
  CHECK(has(all, "class=\"caution\""));

  const std::string few = report_of({words[0], words[1], words[2], "--no-pictures"}).page;
  CHECK(count(few, "+1.00 kN, +50.0 %") == 2);
  CHECK(has(few, "<article class=\"run\" id=\"run-3\">"));
}

TEST_CASE("words of report that cannot be followed are refused", "[report]")
{
  CHECK_THROWS_AS(order_for({}), InputError);
  CHECK_THROWS_AS(order_for({"run", "--at", "20"}), InputError); // no unit
  CHECK_THROWS_AS(order_for({"run", "--at", "-1 mm"}), InputError);
  CHECK_THROWS_AS(order_for({"run", "--at", "1 in", "--no-pictures"}), InputError);
  CHECK(order_for({"a", "--at", "1 in, 40 mm"}).at == std::vector<double>{25.4, 40});
  CHECK(order_for({"runs/a"}).page == "runs/a/report.html");
  CHECK(order_for({"a", "b"}).page == "comparison.html");

  const std::vector<std::string> many(13, "run");
  CHECK(compares_only(order_for(many)));
  CHECK_FALSE(compares_only(order_for({many.begin(), many.begin() + 12})));
  std::vector<std::string> listed = many;
  listed.insert(listed.end(), {"--index", "class.html"});
  CHECK(order_for(listed).index == "class.html");
  CHECK_THROWS_AS(order_for({"a", "--index", "i.html", "--page", "p.html"}), InputError);
  CHECK_THROWS_AS(order_for({"a", "--index", ""}), InputError);
  CHECK_THROWS_AS(order_for({"a", "--title", "mine"}), InputError);
}

TEST_CASE("colour maps go evenly from dark to pale, so that they read in grey", "[report]")
{
  // Lightness by the luma weights of ITU-R BT.709; vik is darkest at its ends.
  const auto luma = [](const ColourMap map, const double share)
  {
    const Colour c = colour_at(map, share);
    return 0.2126 * c.red + 0.7152 * c.green + 0.0722 * c.blue;
  };
  for (double share = 0.02; share <= 1; share += 0.02)
    CHECK(luma(ColourMap::sequential, share) > luma(ColourMap::sequential, share - 0.02));
  for (double share = 0.02; share <= 0.5; share += 0.02)
  {
    CHECK(luma(ColourMap::diverging, share) > luma(ColourMap::diverging, share - 0.02));
    CHECK(luma(ColourMap::diverging, 1 - share) > luma(ColourMap::diverging, 1.02 - share));
  }
  CHECK(hex_text(colour_at(ColourMap::diverging, 2)) == "#590008");
}
