// The badge: its words say all answers, its colour follows the worst of them.

#include "postprocess/runs/run_badge.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
RunRecord run_with(const std::string &outcome, const std::string &metal,
                   const std::string &accuracy)
{
  RunRecord run;
  run.summary.put("finding.outcome", outcome);
  run.summary.put("metal.answer", metal);
  run.summary.put("numerical_quality.accuracy", accuracy);
  return run;
}
} // namespace

TEST_CASE("the badge's colour follows the worst of outcome, metal and accuracy",
          "[report][badge]")
{
  struct Row
  {
    std::string through_within, through_beyond, through_not_known, not_through, undecided;
  };
  const auto colour =
      [](const std::string &outcome, const std::string &metal, const std::string &accuracy)
  { return to_text(badge_colour(run_with(outcome, metal, accuracy))); };
  // Columns: what the accuracy is; rows: outcome and metal. Green stands once.
  for (const auto &[accuracy, row] :
       {std::pair<std::string, Row>{"sound", {"good", "bad", "open", "bad", "none"}},
        {"low", {"open", "bad", "open", "bad", "none"}},
        {"", {"open", "bad", "open", "bad", "none"}},
        {"broken", {"none", "none", "none", "none", "none"}}})
  {
    INFO("accuracy " << accuracy);
    CHECK(colour("through", "within", accuracy) == row.through_within);
    CHECK(colour("through", "beyond", accuracy) == row.through_beyond);
    CHECK(colour("through", "not known", accuracy) == row.through_not_known);
    CHECK(colour("through", "", accuracy) == row.through_not_known);
    for (const std::string outcome : {"jammed", "over-capacity", "stroke-out", "dropped"})
      for (const std::string metal : {"within", "beyond", "not known"})
        CHECK(colour(outcome, metal, accuracy) == row.not_through);
    for (const std::string outcome : {"undecided", ""})
      for (const std::string metal : {"within", "beyond", "not known"})
        CHECK(colour(outcome, metal, accuracy) == row.undecided);
  }
}

TEST_CASE("a contact that a sound pass doesn't have takes the green away",
          "[report][badge]")
{
  RunRecord run = run_with("through", "within", "sound");
  run.summary.put("finding.events.0.kind", "leg ironed");
  run.summary.put("finding.events.0.where", "left");
  run.summary.put("finding.events.1.kind", "leg ironed");
  run.summary.put("finding.events.1.where", "right");
  CHECK(to_text(badge_colour(run)) == "open");
  CHECK(finding_brief(run) == "through, leg ironed");
}

TEST_CASE("a finding that could turn takes the green away", "[report][badge]")
{
  RunRecord run = run_with("through", "within", "sound");
  run.summary.put("finding.close", {JsonMember::Kind::truth, "false"});
  CHECK(to_text(badge_colour(run)) == "good");
  run.summary.put("finding.close", {JsonMember::Kind::truth, "true"});
  CHECK(to_text(badge_colour(run)) == "open");
  CHECK(finding_brief(run) == "through, close");
}

TEST_CASE("the badge says every answer in words", "[report][badge]")
{
  const auto words =
      [](const std::string &outcome, const std::string &metal, const std::string &accuracy)
  { return badge_words(run_with(outcome, metal, accuracy)); };
  CHECK(words("through", "within", "sound") == "through; metal within limits");
  CHECK(words("through", "beyond", "low") == "through; metal beyond limits; low accuracy");
  CHECK(words("jammed", "", "sound") == "jammed; metal not known");
  CHECK(words("undecided", "within", "sound") == "undecided");
  CHECK(words("", "within", "sound") == "no finding");
}
