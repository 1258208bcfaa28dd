// Limits of made-up findings along a key; where they lie is known by construction.

#include "inputs/text/input_error.h"
#include "postprocess/words/study/limit_answer.h"
#include "solver/study/limit_search.h"
#include "tests/solver/study/made_up.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace throughbend;

namespace
{
using Finding = std::function<Meets(double)>;

struct Searched
{
  LimitSearch search;
  std::size_t passes = 0;
};

/// With `workers` passes under way at a time, the oldest done first.
Searched searched(const LimitRange &range, const Finding &finding, std::size_t workers = 2)
{
  Searched           done{LimitSearch(range)};
  std::deque<double> under_way;
  for (;;)
  {
    while (under_way.size() < workers)
      if (const auto value = done.search.next())
        under_way.push_back(*value);
      else
        break;
    if (under_way.empty())
      return done;
    const double value = under_way.front();
    under_way.pop_front();
    done.search.take(value, done.passes++, finding(value));
  }
}

Meets below(double value, double limit)
{
  return value < limit ? Meets::yes : Meets::no;
}
} // namespace

TEST_CASE("A limit is bracketed as narrowly as asked, whatever the number of workers",
          "[study]")
{
  const LimitRange range{9, 14, 0.05, 9, false};
  for (const double limit : {9.01, 9.3, 11.5463, 12.2, 13.9999})
  {
    std::vector<double> first;
    for (const std::size_t workers : {1u, 2u, 5u})
    {
      const Searched done = searched(
          range, [&](double value) { return below(value, limit); }, workers);
      const auto changes = done.search.changes();
      REQUIRE(changes.size() == 1);
      CHECK(changes[0].below.value < limit);
      CHECK(changes[0].above.value >= limit);
      CHECK(changes[0].above.value - changes[0].below.value <= 0.05 + 1e-9);
      CHECK(changes[0].below.meets == Meets::yes);
      CHECK(done.passes <= 17);
      // The very same places, so that a study can go on with another number of workers.
      std::vector<double> values;
      for (const LimitPlace &place : done.search.places())
        values.push_back(place.value);
      if (first.empty())
        first = values;
      CHECK(values == first);
    }
  }
}

TEST_CASE("A limit exactly at a place of the scan belongs to the side that was found there",
          "[study]")
{
  // Places of the scan: 0, 1, ..., 8. The pass at 4 itself holds, or does not.
  const LimitRange range{0, 8, 0.1, 9, false};
  for (const bool holds_at_four : {true, false})
  {
    const Searched done = searched(
        range, [&](double value)
        { return value < 4 || (value == 4 && holds_at_four) ? Meets::yes : Meets::no; });
    const auto changes = done.search.changes();
    REQUIRE(changes.size() == 1);
    CHECK((holds_at_four ? changes[0].below : changes[0].above).value == 4);
    CHECK(changes[0].above.value - changes[0].below.value <= 0.1 + 1e-9);
  }
}

TEST_CASE("Nothing is taken for monotone: hooked in the middle, free again beyond",
          "[study]")
{
  // Holds below 3.3 and from 6.12 on, and again not from 7.7: three changes.
  const auto finding = [](double value)
  { return value < 3.3 || (value >= 6.12 && value < 7.7) ? Meets::yes : Meets::no; };
  const Searched done    = searched({0, 8, 0.05, 9, false}, finding);
  const auto     changes = done.search.changes();
  REQUIRE(changes.size() == 3);
  const double at[] = {3.3, 6.12, 7.7};
  for (std::size_t i = 0; i < 3; ++i)
  {
    CHECK(changes[i].below.value < at[i]);
    CHECK(changes[i].above.value >= at[i]);
    CHECK(changes[i].above.value - changes[i].below.value <= 0.05 + 1e-9);
    CHECK((changes[i].below.meets == Meets::yes) == (i != 1));
  }
}

TEST_CASE("Changes that a cut of an interval lays open are all followed", "[study]")
{
  // Between two places of the scan, 4 and 8, it holds, not, holds, not.
  const auto finding = [](double value)
  { return value < 5 || (value >= 6 && value < 7) ? Meets::yes : Meets::no; };
  const Searched done = searched({0, 8, 0.05, 3, false}, finding);
  CHECK(done.search.changes().size() == 3);
}

TEST_CASE("A pass without a finding is on neither side, and is told", "[study]")
{
  const auto finding = [](double value)
  { return std::abs(value - 5) < 0.2 ? Meets::not_known : below(value, 5); };
  const LimitRange range{0, 8, 0.05, 9, false};
  const Searched   done    = searched(range, finding);
  const auto       changes = done.search.changes();
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].below.value < 4.81);
  CHECK(changes[0].above.value > 5.19);
  CHECK(changes[0].undecided >= 1);
  CHECK(done.passes < 40); // it gives up, and says so
  KeyLimit limit{{"coupon.thickness", "mm", 1, 10}, range, changes, done.search.places(),
                 done.search.undecided(),           {}};
  CHECK(is_open(limit));

  // One single undecided pass is gone round: the bracket is as narrow as asked.
  const Searched round =
      searched(range, [](double value)
               { return value == 5 ? Meets::not_known : below(value, 5.01); });
  REQUIRE(round.search.changes().size() == 1);
  CHECK(round.search.changes()[0].above.value - round.search.changes()[0].below.value <=
        0.05 + 1e-9);
  limit = {limit.key,
           range,
           round.search.changes(),
           round.search.places(),
           round.search.undecided(),
           {}};
  CHECK_FALSE(is_open(limit));
  // Amid places of one side it may hide a change.
  const Searched amid = searched(range, [](double value)
                                 { return value == 3 ? Meets::not_known : Meets::yes; });
  CHECK(amid.search.changes().empty());
  limit = {limit.key, range, {}, amid.search.places(), amid.search.undecided(), {}};
  CHECK(is_open(limit));
}

TEST_CASE("Values of a search are short to write, and whole for a key that counts",
          "[study]")
{
  for (const LimitPlace &place :
       searched({9, 14, 0.05, 9, false}, [](double value) { return below(value, 11.5463); })
           .search.places())
    CHECK(std::abs(place.value * 100 - std::round(place.value * 100)) < 1e-9);
  const Searched counts =
      searched({2, 12, 1, 4, true}, [](double value) { return below(value, 7); });
  for (const LimitPlace &place : counts.search.places())
    CHECK(place.value == std::round(place.value));
  REQUIRE(counts.search.changes().size() == 1);
  CHECK(counts.search.changes()[0].below.value == 6);
  CHECK(counts.search.changes()[0].above.value == 7);
}

TEST_CASE("Two keys are searched one at a time, each from the case as it is", "[study]")
{
  const std::vector<StudyKey> keys = {{"coupon.thickness", "mm", 1, 10},
                                      {"ram.capacity", "kN", 1000, 80000}};
  LimitPlan                   plan(keys, {{9, 14, 0.05, 9, false}, {20, 80, 1, 7, false}},
                                   StudyCondition("through"));
  carry_out(plan,
            [](const StudyPoint &point)
            {
              CHECK(std::isnan(point.values[0]) != std::isnan(point.values[1]));
              return point.values[0] >= 11.5 || point.values[1] < 31500 ? "over-capacity"
                                                                        : "through";
            });
  REQUIRE(plan.searches()[0].changes().size() == 1);
  REQUIRE(plan.searches()[1].changes().size() == 1);
  CHECK(plan.searches()[1].changes()[0].below.value < 31.5); // kN, as shown
  CHECK(plan.searches()[1].changes()[0].above.value >= 31.5);
  CHECK(plan.searches()[1].changes()[0].above.meets == Meets::yes);
}

TEST_CASE("A condition clears nothing that it does not know", "[study]")
{
  StudyPass pass = made_up("through");
  CHECK(StudyCondition("through").judge(pass) == Meets::yes);
  CHECK(StudyCondition("dropped").judge(pass) == Meets::no);
  CHECK(StudyCondition("sound").judge(pass) == Meets::yes);
  CHECK(StudyCondition("metal-within").judge(pass) == Meets::yes);
  // Margin 0.25: the force is 75 % of the capacity.
  CHECK(StudyCondition("force-below 75.001 %").judge(pass) == Meets::yes);
  CHECK(StudyCondition("force-below 74.999%").judge(pass) == Meets::no);
  CHECK(StudyCondition("force-below 0.334 kN").judge(pass) == Meets::yes);
  CHECK(StudyCondition("force-below 333 N").judge(pass) == Meets::no);
  CHECK(StudyCondition("stretch-below 25%").judge(pass) == Meets::not_known);
  // Of a body the edges count, not the mid-width.
  pass.figures["peak_outer_elongation"] = 0.24;
  pass.figures["peak_face_elongation"]  = 0.31;
  CHECK(StudyCondition("stretch-below 25%").judge(pass) == Meets::no);
  CHECK(StudyCondition("stretch-below 32%").judge(pass) == Meets::yes);

  pass.events = {"leg ironed"};
  CHECK(StudyCondition("through").judge(pass) == Meets::yes);
  CHECK(StudyCondition("sound").judge(pass) == Meets::no);
  pass.metal = "not known";
  CHECK(StudyCondition("metal-within").judge(pass) == Meets::not_known);
  pass.accuracy = "broken";
  CHECK(StudyCondition("through").judge(pass) == Meets::not_known);
  CHECK(StudyCondition("through").judge(made_up("undecided")) == Meets::not_known);
  CHECK(StudyCondition("jammed").judge(made_up("undecided")) == Meets::not_known);
  // A coupon that falls through unbent needs little force: that clears nothing.
  CHECK(StudyCondition("force-below 90%").judge(made_up("dropped")) == Meets::no);
  CHECK(StudyCondition("metal-within").judge(made_up("jammed")) == Meets::no);

  for (const char *wrong :
       {"", "trough", "force-below", "force-below 90", "force-below -5 kN",
        "stretch-below 25 mm", "metal-within 3", "undecided"})
    CHECK_THROWS_AS(StudyCondition(wrong), InputError);
}

TEST_CASE("The text of a limit says both sides with what was found there", "[study]")
{
  const StudyKey         key{"coupon.thickness", "mm", 1, 10};
  const LimitRange       range{9, 14, 0.05, 9, false};
  std::vector<StudyPass> passes;
  LimitSearch            search(range);
  while (const auto value = search.next())
  {
    passes.push_back(made_up(*value < 11.5 ? "through" : "over-capacity"));
    search.take(*value, passes.size() - 1, below(*value, 11.5));
  }
  const StudyCondition condition("through");
  const KeyLimit    limit{key, range, search.changes(), search.places(), search.undecided(),
                       {}};
  const std::string text = limit_text(
      {limit}, condition, passes,
      StudyCase(case_text(), "a.ini", {"--friction.plunger=0.2"}), UnitSystem::metric);
  const LimitChange change = search.changes().at(0);
  CHECK_THAT(text,
             Catch::Contains("holds at " + written_value(key, change.below.value) +
                             ", no longer at " + written_value(key, change.above.value)));
  CHECK_THAT(text, Catch::Contains("through, made up") &&
                       Catch::Contains("over-capacity, made up") &&
                       Catch::Contains("Invented."));
  CHECK_THAT(text, Catch::Contains("throughbend push a.ini --friction.plunger=0.2 "
                                   "--coupon.thickness \"" +
                                   written_value(key, change.below.value) + "\"\n"));
  // Where no change is found, one answer for all does not hide what is not sound.
  std::vector<StudyPass> alike(3, made_up("through"));
  alike[1].metal  = "beyond";
  alike[2].metal  = "beyond";
  alike[2].events = {"leg ironed, left"};
  const KeyLimit    flat{key, range,
                      {},  {{9, 0, Meets::yes}, {11, 1, Meets::yes}, {14, 2, Meets::yes}},
                      {},  {}};
  const std::string none = limit_text(
      {flat}, condition, alike, StudyCase(case_text(), "a.ini", {}), UnitSystem::metric);
  CHECK_THAT(none, Catch::Contains("No change was found") &&
                       Catch::Contains("2 of these 3 passes are not sound") &&
                       Catch::Contains("metal beyond: 2") &&
                       Catch::Contains("leg ironed, left: 1"));
  for (StudyPass &pass : passes)
    pass.accounts = R"({"verdict": {"1": {"length_mm": 25.4}, "words": "out at {1}"},
                        "evidence": {"1": {"force_N": 4448.2216}, "words": "by {1}"}})";
  const StudyCase base(case_text(), "a.ini", {});
  CHECK_THAT(limit_text({limit}, condition, passes, base, UnitSystem::us),
             Catch::Contains("out at 1.000 in") && Catch::Contains("by 1.00 kip"));
  CHECK_THAT(limit_json({limit}, condition, passes),
             Catch::Contains("\"holds\": true") && Catch::Contains("\"holds\": false") &&
                 Catch::Contains("\"outcome\": \"over-capacity\""));
}
