// Pages of studies: what they say, what they refuse to say, and that no text of a case or a
// study can become part of them.

#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "postprocess/html/html_text.h"
#include "postprocess/study/notable_passes.h"
#include "postprocess/study/pass_data.h"
#include "postprocess/study/spread_charts.h"
#include "postprocess/study/study_page.h"
#include "postprocess/study/study_tables.h"
#include "tests/support/study_fixture.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

using namespace throughbend;

namespace
{
std::string page_of(const StudyRecord &record)
{
  return make_study_page(record, UnitSystem::metric).page;
}

std::string all_answers(const StudyRecord &record)
{
  std::string text;
  for (const std::string &line :
       answer(reported_study(record), ReaderUnits(UnitSystem::metric)))
    text += line + "\n";
  return text;
}

std::vector<std::size_t> first(const std::size_t n)
{
  std::vector<std::size_t> numbers;
  for (std::size_t i = 0; i < n; ++i)
    numbers.push_back(i);
  return numbers;
}
} // namespace

TEST_CASE("a limit is told from both sides, with all answers of both passes", "[study]")
{
  const std::string text = all_answers(made_up_limits());
  CHECK(has(text, "11.52 mm (through; "));
  CHECK(has(text, "11.53 mm (over-capacity"));
  CHECK(has(text, "7 through, sound"));
  const std::string table =
      limits_table(reported_study(made_up_limits()), ReaderUnits(UnitSystem::metric));
  CHECK(has(table, "(pass 7)"));
  CHECK(has(table, "(pass 8)"));
  CHECK(has(table, "11.1 mm; close"));
  CHECK(has(table, "pass 9 (coupon thickness 13.4 mm"));
}

TEST_CASE("a study's answers in sentences", "[study][words]")
{
  const auto said = [](const std::string &text, const std::vector<std::string> &there)
  {
    INFO(text);
    for (const std::string &words : there)
    {
      INFO(words);
      CHECK(has(text, words));
    }
  };
  StudyRecord limits = made_up_limits();
  said(all_answers(limits),
       {"holds at 11.52 mm (through; metal beyond limits; low accuracy)",
        "no longer at 11.53 mm (over-capacity",
        "no change of \"through\" was found from 0 to 0.5; along it 7 passes: 7 through, "
        "sound",
        "Some passes are on neither side"});
  said(limits_table(reported_study(limits), ReaderUnits(UnitSystem::metric)),
       {"On neither side: pass 9 (coupon thickness 13.4 mm"});
  limits.answers = "";
  limits.whole   = false;
  said(all_answers(limits), {"The answer is not known yet"});

  StudyRecord none = made_up_choice();
  none.answers     = R"({"fixture": null, "objections": {"over capacity": 3}})";
  said(all_answers(none), {"No fixture is chosen"});
  said(page_of(none), {"Objection: over capacity, 3 times."});

  StudyRecord spread = made_up_spread(40);
  said(all_answers(spread), {"0.4 %, between 0.1 and 2.0 % with 95 % confidence"});
  spread.answers = R"({"chances": [
    {"what": "not through", "share": 0, "low": 0, "high": 0.009, "level": 0.95},
    {"what": "jammed", "share": 0.1, "low": null, "high": null, "level": 0.95}]})";
  said(all_answers(spread), {"none of the passes; it is at most 0.9 % with 95 % confidence",
                             "10.0 %, its error is not known"});
  said(page_of(made_up_map(4, 3, 1)),
       {"1 without a finding, which says nothing about the coupon",
        "undecided: says nothing about the coupon"});
}

TEST_CASE("limits that are not known yet show the passes so far", "[study]")
{
  StudyRecord record  = made_up_limits();
  record.answers      = "";
  record.whole        = false;
  const auto pictures = study_pictures(record, UnitSystem::metric);
  REQUIRE(pictures.size() == 1);
  CHECK(count(pictures[0].drawing.svg(), "data-pass=") == 17); // the own pass on both keys
  CHECK_FALSE(has(all_answers(record), "11.52 mm"));
}

TEST_CASE("what a choice shows is the chosen fixture", "[study]")
{
  // Passes 4 and 5 have the chosen opening of 64 mm.
  const NotablePasses notable = notable_passes(reported_study(made_up_choice()));
  REQUIRE(notable.passes.size() >= 2);
  CHECK(notable.passes[0] == 4);
  CHECK(notable.passes[1] == 5);
  StudyRecord none = made_up_choice();
  none.answers     = R"({"fixture": null, "objections": {"over. capacity <b>": 3}})";
  CHECK(notable_passes(reported_study(none)).passes != notable.passes);
  CHECK(has(page_of(none), "over. capacity &lt;b&gt;"));
}

TEST_CASE("a limit of a pass that is not there names no pass", "[study]")
{
  StudyRecord record = made_up_limits();
  record.passes.resize(3);
  CHECK(has(all_answers(record), "11.52 mm (through)"));
  CHECK_NOTHROW(page_of(record));
}

TEST_CASE("a chance never stands without its interval", "[study]")
{
  StudyRecord record = made_up_spread(40);
  CHECK(has(all_answers(record), "0.4 %, between 0.1 and 2.0 %"));
  record.answers         = R"({"chances": [
    {"what": "not through", "share": 0, "low": 0, "high": 0.009, "level": 0.95},
    {"what": "jammed", "share": 0.1, "low": null, "high": null, "level": 0.95},
    {"what": "torn", "share": null}]})";
  const std::string text = all_answers(record);
  CHECK(has(text, "at most 0.9 %"));
  CHECK(has(text, "10.0 %"));
  CHECK(has(text, "\"torn\": not known"));
}

TEST_CASE("the limit in a histogram is one that all passes share", "[study]")
{
  StudyRecord record = made_up_spread(40);
  CHECK(shared_limit(reported_study(record), "peak_ram_force_N").value == Approx(45000));
  CHECK(shared_limit(reported_study(record), "peak_face_elongation").value == Approx(0.27));
  record.keys.push_back({"ram.capacity", "kN", 1000, 45000});
  record.keys.push_back({"material.elongation", "", 1, 0.27});
  CHECK(std::isnan(shared_limit(reported_study(record), "peak_ram_force_N").value));
  CHECK(std::isnan(shared_limit(reported_study(record), "peak_face_elongation").value));
  record           = made_up_spread(40);
  record.case_text = "no case";
  CHECK(std::isnan(shared_limit(reported_study(record), "peak_ram_force_N").value));
  CHECK_NOTHROW(page_of(record));
}

TEST_CASE("figures of the groups of a spread are told apart from their parts", "[study]")
{
  const JsonMembers answers(
      R"({"quantiles": {"peak_ram_force_N": {"0.05": 1, "0.5": 2}, "b": {"0.5": 3}}})", "");
  CHECK(figures_in(answers, "quantiles") ==
        std::vector<std::string>{"b", "peak_ram_force_N"});
}

TEST_CASE("every kind of study makes a page, whole or hardly begun", "[study]")
{
  const std::string incomplete = "This report is incomplete"; // the words, once
  for (StudyRecord record :
       {made_up_map(4, 3, 1), made_up_map(5, 1, 1), made_up_map(3, 3, 2), made_up_limits(),
        made_up_spread(30), made_up_choice(), made_up_refined_map()})
  {
    const std::string whole = page_of(record);
    CHECK(has(whole, "<svg"));
    CHECK(has(whole, "guard the fixture"));
    CHECK(has(whole, "not an acceptance"));
    CHECK_FALSE(has(whole, incomplete));
    CHECK_FALSE(has(whole, "{{"));

    record.whole = false;
    record.passes.resize(1);
    record.answers = "";
    CHECK(has(page_of(record), incomplete));
    record.passes.clear();
    CHECK(has(page_of(record), "no passes yet"));
    CHECK(study_pictures(record, UnitSystem::metric).empty());
  }
}

TEST_CASE("a pass without a finding is told and not counted as one", "[study]")
{
  StudyRecord       record = made_up_map(4, 3, 1);
  const std::string page   = page_of(record);
  CHECK(has(page, "1 without a finding"));
  CHECK(has(page, "undecided: "));
}

TEST_CASE("a page says what its passes found in both families of units", "[study]")
{
  StudyRecord record = made_up_limits();
  for (StudyPass &pass : record.passes)
    pass.accounts = R"({"verdict": {"1": {"length_mm": 25.4}, "words": "out at {1}"},
                        "evidence": {"1": {"force_N": 4448.2216}, "words": "by {1}"}})";
  const std::string page = page_of(record);
  CHECK(count(page, "out at 25.4 mm (1.000 in)") > record.passes.size()); // and the table
  CHECK(has(page, "by 4.45 kN (1.00 kip)"));
}

TEST_CASE("no text of a study becomes a tag, an attribute or a script", "[study]")
{
  const std::string nasty =
      "</script><script>alert(1)</script><img src=x onerror=\"a\"> ' & {{css}}";
  for (StudyRecord record : {made_up_map(4, 3, 2), made_up_map(4, 1, 1), made_up_limits(),
                             made_up_spread(20), made_up_choice()})
  {
    const std::string clean = page_of(record);
    record.title            = nasty;
    record.case_text += "# " + nasty + "\n";
    for (StudyKey &key : record.keys)
      key.unit = nasty;
    record.keys[0].key = "coupon." + nasty;
    for (StudyPass &pass : record.passes)
    {
      pass.verdict = pass.evidence = nasty;
      pass.words                   = {nasty};
      pass.accounts                = json_text(Json{{"verdict", {{"words", nasty}}}});
      pass.accuracy                = nasty;
      if (!pass.moments.empty() && pass.moments[0].tools.size() > 0)
        pass.moments[0].tools[0].name = nasty;
    }
    for (const std::string from : {"over-capacity at the thickest", "invented", "close"})
      if (const std::size_t at = record.answers.find(from); at != std::string::npos)
        record.answers.replace(at, from.size(),
                               "</script><script>alert(1)</script><img src=x>");
    const std::string page = page_of(record);
    CHECK(count(page, "<script") == count(clean, "<script"));
    CHECK(count(page, "</script") == count(clean, "</script"));
    CHECK(count(page, "<img") == 0);
    CHECK_FALSE(has(page, "onerror=\"a\""));
    for (const StudyPicture &picture : study_pictures(record, UnitSystem::metric))
    {
      CHECK_FALSE(has(picture.drawing.svg(), "<script"));
      CHECK_FALSE(has(picture.drawing.svg(), "<img"));
    }
  }
}

TEST_CASE("answers of a study that cannot be are refused in words", "[study]")
{
  StudyRecord record = made_up_limits();
  record.answers     = "{\"limits\": 3}";
  CHECK_THROWS_AS(page_of(record), InputError);
  record.answers = "{\"limits\": [{\"key\": 5}]}";
  CHECK_THROWS_AS(page_of(record), InputError);
  record.answers = "{";
  CHECK_THROWS_AS(page_of(record), InputError);
}

TEST_CASE("shapes are packed to a size, the first and the last stay", "[study]")
{
  const ReportedStudy study = reported_study(made_up_map(5, 3, 1));
  const ReaderUnits   units(UnitSystem::metric);
  const PassData      all = pass_data(study, first(15), units, 10'000'000);
  CHECK_FALSE(all.thinned);
  CHECK(all.moments == 13);
  const PassData few = pass_data(study, first(15), units, 40'000);
  CHECK(few.thinned);
  CHECK(few.json.size() < 40'000 + 15 * 2500); // curves and words beside the shapes
  const auto  json    = nlohmann::json::parse(few.json);
  const auto &moments = json["passes"][4]["moments"];
  CHECK(moments.front()["travel"] == Approx(0));
  CHECK(moments.back()["travel"].get<double>() ==
        Approx(study.record.passes[4].moments.back().travel).margin(0.01));
}

TEST_CASE("a packed outline comes back within a hundredth of a millimetre", "[study]")
{
  const StudyRecord   record = made_up_map(3, 1, 1);
  const ReportedStudy study  = reported_study(record);
  const auto          json   = nlohmann::json::parse(
                 pass_data(study, first(3), ReaderUnits(UnitSystem::metric), 10'000'000).json);
  const auto         &span = json["span"];
  const std::string   text = json["passes"][1]["moments"][6]["coupon"];
  const StudyOutline &is   = record.passes[1].moments[6].coupon;
  const std::string   letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string bytes; // RFC 4648, read back here by hand
  for (std::size_t i = 0; i + 3 < text.size() + 1; i += 4)
  {
    unsigned word = 0;
    for (std::size_t k = 0; k < 4; ++k)
      word = word << 6 |
             (text[i + k] == '=' ? 0u : static_cast<unsigned>(letters.find(text[i + k])));
    for (const int shift : {16, 8, 0})
      bytes += static_cast<char>(word >> shift & 255);
  }
  for (std::size_t i = 0; i < is.x.size(); ++i)
  {
    const auto word = [&](const std::size_t at)
    {
      return static_cast<unsigned char>(bytes[at]) +
             256. * static_cast<unsigned char>(bytes[at + 1]);
    };
    CHECK(span[0].get<double>() + word(4 * i) / 65535 * span[2].get<double>() ==
          Approx(is.x[i]).margin(0.01));
    CHECK(span[1].get<double>() + word(4 * i + 2) / 65535 * span[3].get<double>() ==
          Approx(is.y[i]).margin(0.01));
  }
}

TEST_CASE("the class page is made of a map alone, and stays small", "[study]")
{
  const std::string page = make_class_page(made_up_map(5, 5, 3), UnitSystem::metric).page;
  CHECK(page.size() < 8'000'000);
  CHECK(count(page, "type=\"range\"") == 4); // three keys and the travel
  CHECK_THROWS_AS(make_class_page(made_up_limits(), UnitSystem::metric), InputError);
  CHECK_THROWS_AS(make_class_page(made_up_spread(10), UnitSystem::metric), InputError);
  StudyRecord empty = made_up_map(5, 5, 3);
  empty.passes.clear();
  CHECK_THROWS_AS(make_class_page(empty, UnitSystem::metric), InputError);
}

TEST_CASE("pictures are SVG and PNG of the same drawing", "[study]")
{
  for (const StudyRecord &record :
       {made_up_map(4, 3, 1), made_up_limits(), made_up_spread(30), made_up_choice()})
  {
    const auto pictures = study_pictures(record, UnitSystem::metric);
    REQUIRE_FALSE(pictures.empty());
    for (const StudyPicture &picture : pictures)
    {
      CHECK(picture.drawing.svg().rfind("<svg", 0) == 0);
      CHECK_FALSE(has(picture.drawing.svg(), "nan"));
      CHECK_FALSE(has(picture.drawing.svg(), "inf"));
      CHECK_FALSE(has(picture.drawing.svg(), "unknown"));
      CHECK(picture.drawing.png(1).substr(1, 3) == "PNG");
    }
  }
}
