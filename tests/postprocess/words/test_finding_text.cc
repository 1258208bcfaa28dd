// What a person reads at the end: numbers with units, files, the caution. Its sentences
// are asked for in test_run_words and, for the verdict, in test_outcome_words.

#include "postprocess/words/finding_text.h"
#include "tests/support/made_up_summaries.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace throughbend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace
{
constexpr UnitSystem metric = UnitSystem::metric;
constexpr UnitSystem us     = UnitSystem::us;
} // namespace

TEST_CASE("display units follow their definitions", "[unit][output]")
{
  // 1 in = 25.4 mm; 1 ksi = 6.894757 MPa, 1 kip = 4.448222 kN, 1 ft lbf = 1.355818 J:
  // NIST SP 811 (2008), appendix B.8.
  CHECK(length_text(25.4, us) == "1.000 in");
  CHECK(length_text(25.44, metric) == "25.4 mm");
  CHECK(force_text(44482.22, us) == "10.0 kip");
  CHECK(force_text(44482.22, metric) == "44.5 kN");
  CHECK(force_text(123456, metric) == "123 kN");
  CHECK(force_text(1234, metric) == "1.23 kN");
  CHECK(force_text(0, metric) == "0.000 kN");
  CHECK(stress_text(344.73785, us) == "50.0 ksi");
  CHECK(stress_text(344.73785, metric) == "345 MPa");
  CHECK(energy_text(13558.18, us) == "10.0 ft lbf");
  CHECK(energy_text(13558.18, metric) == "13.6 J");
  CHECK(speed_text(3.048, us) == "10.0 ft/s");
  CHECK(speed_text(3.048, metric) == "3.05 m/s");
  CHECK(percent_text(0.2134) == "21.3 %");
  CHECK(fine_length_text(11.6, metric) == "11.60 mm");
  CHECK(fine_length_text(12.7, us) == "0.500 in");
  CHECK(force_rise_text(1751.268, us) == "10.0 kip per in");
  CHECK(force_rise_text(9000, metric) == "9.00 kN per mm");
  CHECK(length_text(std::numeric_limits<double>::quiet_NaN(), us) == "unknown in");
}

TEST_CASE("what rounds to nothing has no sign", "[unit][output]")
{
  CHECK(angle_text(-0.04) == "0.0 deg");
  CHECK(angle_text(-0.06) == "-0.1 deg");
  CHECK(force_text(-0.1, metric) == "0.000 kN");
  CHECK(length_text(-1e-9, us) == "0.000 in");
  CHECK(decimal_text(-0.0, 0) == "0");
}

TEST_CASE("a ripple of the force stands beside the peak and among the errors",
          "[unit][output]")
{
  RunSummary summary = invented_summary();
  CHECK_THAT(finding_text(summary, "", metric), !Contains("1.20 kN"));
  summary.figures->peak_force_band = 1200;
  summary.figures->ripple          = 0.034;
  CHECK_THAT(finding_text(summary, "", metric), Contains("1.20 kN") && Contains("3.4 %"));
}

TEST_CASE("the finding shows figures, margins, files and the caution", "[unit][output]")
{
  const std::string text = finding_text(invented_summary(), "runs/sound-pass", metric);
  CHECK_THAT(text, StartsWith(invented_summary().origin.title + "\n") &&
                       Contains(invented_summary().finding->evidence));
  CHECK_THAT(text, Contains("31.4 kN at 30.5 mm") && Contains("margin 60.8 %"));
  CHECK_THAT(text, Contains("127.0 mm, used 71.1 mm, margin 44.0 %"));
  CHECK_THAT(text, Contains("27.5 %") && Contains("0.243") && Contains("2.5 mm left"));
  CHECK_THAT(text, Contains("20.0 %"));
  CHECK_THAT(text, Contains("3.0 deg left, 1.5 deg right"));
  CHECK_THAT(text, Contains("3.05 m/s") && Contains("13.6 J"));
  CHECK_THAT(text, Contains("0.12 %") && Contains("0.0034 %"));
  CHECK_THAT(text, Contains("runs/sound-pass") && Contains("travel.csv"));
  CHECK_THAT(text, Contains(caution_text()));

  const std::string foreign = finding_text(invented_summary(), "", us);
  CHECK_THAT(foreign, Contains("7.06 kip at 1.200 in") && Contains("10.0 ft/s") &&
                          Contains("10.0 ft lbf"));
  CHECK_THAT(foreign, !Contains(" kN") && !Contains(" mm") && !Contains("travel.csv"));
}

TEST_CASE("a half model's figures are told of both sides", "[unit][output]")
{
  RunSummary summary               = invented_summary();
  summary.figures->outer_strain_at = 2.54;
  for (const char *model : {"half", "quarter"}) // a quarter: half of the width as well
  {
    summary.origin.model   = model;
    const std::string text = finding_text(summary, "", metric);
    CHECK_THAT(text, Contains("2.5 mm") && Contains("1.5 deg"));
    CHECK_THAT(text, !Contains("right of") && !Contains("left"));
  }
  summary.origin.model = "half, cut along its length"; // of a body: both sides are there
  CHECK_THAT(finding_text(summary, "", metric), Contains("right of"));
}

TEST_CASE("a finding's account is told in the units asked for", "[unit][output]")
{
  RunSummary summary = invented_summary();
  summary.finding->account << "leg: ";
  summary.finding->account.add(Evidence::Measure::room, 12.7) << " thick.";
  CHECK_THAT(finding_text(summary, "", us), Contains("leg: 0.500 in thick."));
  CHECK_THAT(finding_text(summary, "", metric), Contains("leg: 12.70 mm thick."));
}

TEST_CASE("what is not known is not shown as a figure", "[unit][output]")
{
  RunSummary summary          = invented_summary();
  summary.release->completed  = false;
  const std::string unsettled = finding_text(summary, "", metric);
  CHECK_THAT(unsettled, Contains("springback"));
  CHECK_THAT(unsettled, !Contains("3.0 deg") && !Contains("ejection speed"));

  RunSummary broken;
  broken.state           = RunState::failed;
  broken.failure         = "out of memory";
  const std::string text = finding_text(broken, "", metric);
  CHECK_THAT(text, StartsWith("NO FINDING") && Contains(broken.failure) &&
                       !Contains("peak ram force"));

  // A pass that took no step.
  RunSummary still        = invented_summary();
  still.finding->outcome  = Outcome::undecided;
  still.release           = std::nullopt;
  still.figures           = key_figures({}, reference_case());
  const std::string empty = finding_text(still, "", metric);
  CHECK_THAT(empty, !Contains("peak ram force") && !Contains("margin") &&
                        !Contains("0.000") && !Contains("energy"));
}

TEST_CASE("only a coupon that is through leaves a margin", "[unit][output]")
{
  RunSummary summary = invented_summary();
  for (const Outcome outcome :
       {Outcome::stroke_out, Outcome::dropped, Outcome::over_capacity, Outcome::undecided})
  {
    summary.finding->outcome = outcome;
    const std::string text   = finding_text(summary, "", metric);
    CHECK_THAT(text, !Contains("margin") && Contains("60.8 %") && Contains("44.0 %"));
  }
}
