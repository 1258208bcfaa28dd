// The live line: silent to files, not too often, and never half a line left standing.

#include "postprocess/words/progress.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <sstream>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
PassSample sample_at(const int step, const double travel, const double force)
{
  PassSample sample;
  sample.step      = step;
  sample.travel    = travel;
  sample.ram_force = force;
  return sample;
}
} // namespace

TEST_CASE("nobody at the terminal means not a byte written", "[unit][output]")
{
  std::ostringstream out;
  {
    Progress progress(out, Audience::nobody, 100);
    progress.show(sample_at(1, 10, 1000));
    progress.finish();
  }
  CHECK(out.str().empty());
  std::FILE *file = std::tmpfile();
  REQUIRE(file != nullptr);
  CHECK(audience_at(fileno(file)) == Audience::nobody);
  std::fclose(file);
}

TEST_CASE("the line shows travel, force, step and the time left", "[unit][output]")
{
  std::ostringstream out;
  double             now = 100;
  Progress progress(out, Audience::terminal, 80, UnitSystem::metric, [&] { return now; });
  progress.show(sample_at(1, 1, 2000));
  CHECK_THAT(out.str(), Contains("travel 1.0 mm") && Contains("force 2.00 kN") &&
                            Contains("step 1") && !Contains("left"));
  now = 130; // a quarter of the way in 30 s: 90 s more at that pace
  progress.show(sample_at(9, 20, 31400));
  CHECK_THAT(out.str(), Contains("20.0 mm") && Contains("31.4 kN") && Contains("step 9") &&
                            Contains("1 min 30 s"));
}

TEST_CASE("the line is rewritten at most ten times a second and ends once",
          "[unit][output]")
{
  std::ostringstream out;
  double             now = 0;
  {
    Progress progress(out, Audience::terminal, 1000, UnitSystem::metric,
                      [&] { return now; });
    for (int step = 1; step <= 2000; ++step, now += 0.001)
      progress.show(sample_at(step, 0.4 * step, 100));
    progress.finish();
  }
  const std::string text     = out.str();
  const auto        rewrites = std::count(text.begin(), text.end(), '\r');
  CHECK(rewrites >= 15);
  CHECK(rewrites <= 21);
  CHECK_THAT(text, Contains("step 2000")); // the last one is shown however soon it came
  CHECK(std::count(text.begin(), text.end(), '\n') == 1);
  CHECK(text.back() == '\n');
}

TEST_CASE("a shorter line wipes what the longer one left", "[unit][output]")
{
  std::ostringstream out;
  double             now = 0;
  Progress progress(out, Audience::terminal, 100, UnitSystem::metric, [&] { return now; });
  now = 1000;
  progress.show(sample_at(10, 50, 1000));
  const std::size_t longer = out.str().size();
  now += 1;
  progress.show(sample_at(11, 100, 1000));
  CHECK(out.str().size() - longer == longer);
}
