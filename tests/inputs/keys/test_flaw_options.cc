// The keys of flaws: what follows from what, and what is refused with which words. Cases
// are invented.

#include "tests/support/case_texts.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
const std::string welded =
    workshop_text("[weld]\npreparation = single_v\nroot_opening = 3 mm\nbend = root\n");

Case read(const std::vector<std::string> &words)
{
  return case_of(welded, words);
}

/// Whether the only complaint about a case says this.
bool complains(const std::vector<std::string> &words, const std::string &text)
{
  return has(only_complaint(welded, words), text);
}
} // namespace

TEST_CASE("A flaw needs no more than its depth", "[unit][flaw]")
{
  CHECK_FALSE(read({}).flaws.present());
  const Case  c    = read({"--flaw.depth", "2 mm"});
  const Flaw &flaw = c.flaws.each.front();
  CHECK(flaw.present());
  CHECK(flaw.line == FlawLine::centre);
  CHECK(flaw.surface == BendKind::root);
  CHECK(flaw.from == 0);
  CHECK(flaw.width == 0);
  CHECK(c.inspection.opening_limit == 3);
  CHECK(flaw.breaks_convex(c.weld));
}

TEST_CASE("Heights of a flaw count from the convex face, whichever it is", "[unit][flaw]")
{
  // 2 to 5 mm under the root of a 10 mm plate.
  const Case     c    = read({"--flaw.depth", "5 mm", "--flaw.from", "2 mm"});
  const FlawSpan root = flaw_span(c.flaws.each.front(), c.weld, 10);
  CHECK(root.low == 2);
  CHECK(root.high == 5);
  Weld face           = c.weld;
  face.bend           = BendKind::face;
  const FlawSpan over = flaw_span(c.flaws.each.front(), face, 10);
  CHECK(over.low == 5);
  CHECK(over.high == 8);
}

TEST_CASE("A second flaw counts only beside a first one", "[unit][flaw]")
{
  const Case two = read({"--flaw.depth", "2 mm", "--flaw2.depth", "4 mm", "--flaw2.line",
                         "left", "--flaw2.from", "2.5 mm"});
  CHECK(two.flaws.each[1].line == FlawLine::left);
  const CaseReading alone = read_case_text(welded, "case.ini", {"--flaw2.depth", "4 mm"});
  REQUIRE(alone.value.has_value());
  CHECK_FALSE(alone.value->flaws.present());
  REQUIRE(alone.remarks.size() == 1);
  CHECK(alone.remarks.front().find("only: flaw.depth above 0") != std::string::npos);
}

TEST_CASE("A flaw that the model cannot show is refused, with the cure", "[unit][flaw]")
{
  CHECK(complains({"--flaw.depth", "2 mm", "--mesh.dimension", "3"}, "plane strain only"));
  CHECK(complains({"--flaw.depth", "2 mm", "--weld.bend", "side", "--weld.preparation",
                   "square", "--weld.width", "8 mm"},
                  "weld.bend = face or root"));
  CHECK(complains({"--flaw.depth", "2 mm", "--weld.preparation", "square"},
                  "this coupon has no weld metal"));
  CHECK(complains({"--flaw.depth", "9.6 mm"}, "leaves a bridge of 0.4 mm only"));
  CHECK(complains({"--flaw.depth", "12 mm"}, "the flaw is 12 mm deep in a coupon 10 mm"));
  CHECK(complains({"--flaw.depth", "3 mm", "--flaw.from", "4 mm"},
                  "would end at 3 mm where it begins at 4 mm"));
  CHECK(complains({"--flaw.depth", "0.1 mm"}, "too short for cells"));
  CHECK(complains({"--flaw.depth", "3 mm", "--flaw.from", "0.2 mm"},
                  "flaw.from = 0 mm, or from 0.5 mm"));
  CHECK(complains({"--flaw.depth", "2 mm", "--flaw.width", "1.5 mm"},
                  "flaw.width up to 1 mm"));
}

TEST_CASE("Flaws keep clear of each other", "[unit][flaw]")
{
  const std::vector<std::string> first = {"--flaw.depth", "2 mm"};
  const auto                     with  = [&](std::vector<std::string> more)
  {
    more.insert(more.begin(), first.begin(), first.end());
    return more;
  };
  CHECK(complains(with({"--flaw2.depth", "4 mm", "--flaw2.from", "1 mm"}),
                  "overlap or leave no bridge"));
  CHECK(complains(with({"--flaw2.depth", "4 mm", "--flaw2.from", "2.2 mm"}),
                  "overlap or leave no bridge"));
  CHECK(complains(with({"--flaw2.depth", "2.1 mm", "--flaw2.line", "left"}),
                  "differ by 0.1 mm in height"));
  CHECK(read(with({"--flaw2.depth", "4 mm", "--flaw2.from", "2.5 mm"})).flaws.present());
  CHECK(read(with({"--flaw2.depth", "2 mm", "--flaw2.line", "left"})).flaws.present());
}
