// The engine on made-up passes: all workers busy, nothing pushed twice, stopped cleanly.

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "postprocess/words/study/study_progress.h"
#include "solver/study/held_fixture.h"
#include "solver/study/limit_search.h"
#include "solver/study/part_plan.h"
#include "solver/study/study_engine.h"
#include "tests/solver/study/made_up.h"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <limits>
#include <set>
#include <sstream>
#include <thread>

using namespace throughbend;

namespace
{
StudyCase base_case()
{
  return StudyCase(case_text(), "made up", {});
}

std::vector<StudyPoint> thicknesses(std::initializer_list<double> values)
{
  std::vector<StudyPoint> points;
  for (const double value : values)
    points.push_back({{value}});
  return points;
}

/// Keeps what it is given, as a file would.
class Shelf : public PassShelf
{
public:
  std::optional<StudyPass> find(const Case &c) override
  {
    const auto found = passes.find(case_hash(c));
    return found == passes.end() ? std::nullopt : std::optional(found->second);
  }
  void keep(const Case &c, const StudyPass &pass, std::size_t) override
  {
    passes[case_hash(c)] = pass;
  }
  void place(const Case &, const StudyPass &, std::size_t) override { ++placed; }

  std::map<std::string, StudyPass> passes;
  int                              placed = 0;
};
} // namespace

TEST_CASE("Every point is pushed once, and passes carry the values they were made with",
          "[study]")
{
  const StudyCase  base = base_case();
  std::atomic<int> made{0};
  ThreadCrew       crew(
      [&](const Case &c, const auto &) -> std::optional<StudyPass>
      {
        ++made;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        return made_up(c.coupon.thickness < 11 ? "through" : "jammed");
      },
      3);
  StudyEngine engine(base, {base.key("coupon.thickness", UnitSystem::metric)}, crew,
                     nullptr);
  ListPlan    plan(thicknesses({9, 10, 11, 12, 9, 10}));
  CHECK(engine.carry_out(plan) == StudyEnd::whole);
  CHECK(made == 4); // 9 and 10 are asked for twice
  REQUIRE(engine.passes().size() == 4);
  for (std::size_t i = 0; i < 6; ++i)
  {
    REQUIRE(plan.numbers()[i]);
    const StudyPass &pass   = engine.passes()[*plan.numbers()[i]];
    const double     wanted = std::vector<double>{9, 10, 11, 12, 9, 10}[i];
    CHECK(pass.values == std::vector<double>{wanted});
    CHECK(pass.outcome == (wanted < 11 ? "through" : "jammed"));
    CHECK(pass.case_hash ==
          case_hash(*base.at(engine.keys(), {{wanted}}).value)); // as in run.json
  }
  ListPlan further(thicknesses({12, 13}));
  CHECK(engine.carry_out(further) == StudyEnd::whole);
  CHECK(made == 5);
  CHECK(*further.numbers()[1] == 4);
}

TEST_CASE("Workers work at the same time", "[study]")
{
  const StudyCase  base = base_case();
  std::atomic<int> now{0}, most{0};
  ThreadCrew       crew(
      [&](const Case &, const auto &) -> std::optional<StudyPass>
      {
        most = std::max(most.load(), ++now);
        std::this_thread::sleep_for(std::chrono::milliseconds(30));
        --now;
        return made_up("through");
      },
      2);
  StudyEngine engine(base, {base.key("coupon.thickness", UnitSystem::metric)}, crew,
                     nullptr);
  ListPlan    plan(thicknesses({9, 10, 11, 12}));
  engine.carry_out(plan);
  CHECK(most == 2);
}

TEST_CASE("What is on the shelf is not made again", "[study]")
{
  const StudyCase base = base_case();
  Shelf           shelf;
  std::size_t     made_first = 0;
  for (const bool again : {false, true})
  {
    std::atomic<std::size_t> made{0};
    ThreadCrew               crew(
        [&](const Case &c, const auto &) -> std::optional<StudyPass>
        {
          ++made;
          return made_up(c.coupon.thickness < 11.3 ? "through" : "jammed");
        },
        2);
    const StudyKey key = base.key("coupon.thickness", UnitSystem::metric);
    StudyEngine    engine(base, {key}, crew, &shelf);
    LimitPlan      plan({key}, {{9, 14, 0.05, 9, false}}, StudyCondition("through"));
    engine.carry_out(plan);
    CHECK(engine.passes().size() == shelf.passes.size());
    CHECK(plan.searches()[0].changes().size() == 1);
    CHECK(made == (again ? 0 : shelf.passes.size()));
    made_first = again ? made_first : made.load();
  }
  CHECK(shelf.placed == static_cast<int>(made_first));
}

TEST_CASE("A study that is stopped keeps what is done, and leaves what is under way",
          "[study]")
{
  const StudyCase   base = base_case();
  std::atomic<bool> asked{false};
  ThreadCrew        crew(
      [&](const Case &c, const std::function<bool()> &stop) -> std::optional<StudyPass>
      {
        if (c.coupon.thickness < 9.5)
          return made_up("through");
        asked = true;
        while (!stop())
          std::this_thread::sleep_for(std::chrono::milliseconds(1));
        return std::nullopt;
      },
      2);
  Shelf       shelf;
  StudyEngine engine(base, {base.key("coupon.thickness", UnitSystem::metric)}, crew,
                     &shelf);
  engine.stop_when([&] { return asked.load(); });
  ListPlan plan(thicknesses({9, 10, 11, 12}));
  CHECK(engine.carry_out(plan) == StudyEnd::interrupted);
  CHECK(shelf.passes.size() == engine.passes().size());
  CHECK(engine.passes().size() <= 1);
}

TEST_CASE("An error in a pass ends the study with its reason, and what is done is kept",
          "[study]")
{
  const StudyCase base = base_case();
  Shelf           shelf;
  ThreadCrew      crew(
      [](const Case &c, const auto &) -> std::optional<StudyPass>
      {
        if (c.coupon.thickness > 10.5)
          throw std::runtime_error("out of memory, made up");
        return made_up("through");
      },
      1);
  StudyEngine engine(base, {base.key("coupon.thickness", UnitSystem::metric)}, crew,
                     &shelf);
  ListPlan    plan(thicknesses({9, 10, 11, 12}));
  CHECK_THROWS_WITH(engine.carry_out(plan), Catch::Contains("out of memory, made up"));
  CHECK(shelf.passes.size() == 2);
}

TEST_CASE("Parts of a plan are the whole, and share nothing", "[study]")
{
  std::multiset<double> values;
  for (std::size_t part = 1; part <= 3; ++part)
  {
    ListPlan whole(thicknesses({1, 2, 3, 4, 5, 6, 7}));
    PartPlan plan(whole, part, 3);
    CHECK(plan.planned() == (part == 1 ? 3 : 2));
    while (const auto point = plan.next())
      values.insert(point->values[0]);
  }
  CHECK(values == std::multiset<double>{1, 2, 3, 4, 5, 6, 7});
}

TEST_CASE("A point is what push makes of the same words", "[study]")
{
  const std::vector<std::string> words = {"--friction.shoulders", "0.2",
                                          "--coupon.thickness=11 mm"};
  const StudyCase                base(case_text(), "made up", words);
  CHECK(base.own().coupon.thickness == 11);
  const StudyKey key = base.key("coupon.thickness", UnitSystem::metric);
  CHECK(key.own == 11);
  const Case at = base.at({key}, {{9.53}}).value.value();
  CHECK(at.coupon.thickness == 9.53);
  CHECK(at.friction.shoulders == 0.2);
  CHECK(case_hash(at) == case_hash(*read_case_text(case_text(), "made up",
                                                   {"--friction.shoulders", "0.2",
                                                    "--coupon.thickness", "9.53 mm"})
                                        .value));
  // NaN: as the case has it.
  const double as_it_is = std::numeric_limits<double>::quiet_NaN();
  CHECK(case_hash(*base.at({key}, {{as_it_is}}).value) == case_hash(base.own()));
  // Words of a point take the place of the user's.
  CHECK(base.at({key}, {{as_it_is}, {"--friction.shoulders", "0.3"}})
            .value->friction.shoulders == 0.3);

  CHECK_THROWS_WITH(base.key("coupon.thicknes", UnitSystem::metric),
                    Catch::Contains("did you mean 'coupon.thickness'"));
  CHECK_THROWS_WITH(base.key("material.law", UnitSystem::metric),
                    Catch::Contains("no number"));
  CHECK_THROWS_WITH(base.key("frame.clearance_above", UnitSystem::metric),
                    Catch::Contains("no effect"));
  CHECK_THROWS_WITH(base.given(key, "11", "--from"), Catch::Contains("--from 11"));
  CHECK_FALSE(base.at({key}, {{-3.}}).value);
}

TEST_CASE("The fixture is steel: it stays while the coupon's thickness varies", "[study]")
{
  std::string text = case_text();
  text.replace(text.find("width = 40 mm"), 13, "width = 4t");
  text += "[frame]\ndistance = 85 mm\nclearance_above = 3 mm\n";
  const StudyCase given(text, "made up", {});
  StudyCase       held = with_fixture_held(given);
  held.hold_frame();
  const StudyKey key = given.key("coupon.thickness", UnitSystem::metric);
  const Case     at  = held.at({key}, {{11.5}}).value.value();
  CHECK(at.fixture.plunger.width == 40);
  // The opening's upper edge stays 13 mm above the shoulders.
  CHECK(at.coupon.thickness + at.fixture.frame.clearance_above == Approx(13));
  CHECK(given.at({key}, {{11.5}}).value->fixture.plunger.width == Approx(46));
  CHECK_FALSE(held.at({key}, {{13.5}}).value); // it does not go into the opening
  CHECK_THAT(held.push_command({key}, {{11.5}}),
             Catch::Contains("--plunger.width \"40 mm\"") &&
                 Catch::Contains("--frame.clearance_above \"1.5 mm\""));
}

TEST_CASE("Values are written so that a case reads them back", "[study]")
{
  const StudyCase base = base_case();
  const StudyKey  mm   = base.key("coupon.thickness", UnitSystem::metric);
  const StudyKey  inch = base.key("coupon.thickness", UnitSystem::us);
  const StudyKey  kip  = base.key("ram.capacity", UnitSystem::us);
  CHECK(written_value(mm, 11.55) == "11.55 mm");
  CHECK(inside_value(inch, 0.375) == 9.525); // not 0.375 * 25.4
  CHECK(written_value(inch, inside_value(inch, 0.375)) == "0.375 in");
  for (const StudyKey &key : {mm, inch, kip})
    for (const double value : {9.53, 100. / 3, 12.7, 1e3 / 7})
      CHECK(base.given(key, written_value(key, value), "") == value);
  const StudyKey layers = base.key("mesh.layers", UnitSystem::metric);
  CHECK(is_count(layers));
  CHECK(base.at({layers}, {{6}}).value->mesh.layers == 6);
}

TEST_CASE("The line of a study counts, and takes no time for passes that it took over",
          "[study]")
{
  StudyProgress progress;
  progress.done       = 23;
  progress.planned    = 43;
  progress.taken_over = 13;
  progress.seconds    = 30;
  progress.outcomes   = {{"through", 12}, {"jammed", 11}};
  // Ten made in 30 s, twenty more: 60 s.
  CHECK(progress_text(progress) ==
        "23 of about 43 passes (11 jammed, 12 through), about 1 min 00 s left");
  std::ostringstream nobody, terminal;
  StudyLine(nobody, Audience::nobody).show(progress);
  CHECK(nobody.str().empty());
  {
    StudyLine line(terminal, Audience::terminal);
    line.show(progress);
    line.show(progress);
  }
  CHECK(terminal.str() == "\r" + progress_text(progress) + "\n");
}

TEST_CASE("A study says which keys of the file do not follow the one it varies", "[study]")
{
  const auto told = [](const std::string &friction, std::vector<std::string> overrides)
  {
    const StudyCase base(case_text() + friction, "my-case.ini", std::move(overrides));
    return base.what_stays({base.key("friction.shoulders", UnitSystem::metric)});
  };
  const std::string left = "friction.left_shoulder";
  CHECK(told("", {}).empty());
  CHECK(told("", {"--" + left, "0.3"}).empty()); // typed beside the study: meant
  const std::vector<std::string> stays = told("[friction]\nleft_shoulder = 0.3\n", {});
  REQUIRE(stays.size() == 1);
  CHECK(stays[0].find(left +
                      " stays 0.3 in all passes, as my-case.ini has it. Left out, it "
                      "would be friction.shoulders") == 0);
}
