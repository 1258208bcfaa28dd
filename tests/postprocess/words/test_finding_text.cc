// What a person reads at the end: the right verdict, the numbers with units, the caution.

#include "postprocess/words/finding_text.h"
#include "solver/outcome/verdict.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace throughbend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace
{
constexpr UnitSystem metric = UnitSystem::metric;
constexpr UnitSystem us     = UnitSystem::us;

RunSummary invented_summary()
{
  RunSummary summary;
  summary.state        = RunState::finished;
  summary.origin.title = "Kestrel Haven, sound pass";
  summary.finding      = Finding{
      Outcome::through, {}, {}, "", 71.12, 1200, "Both tips are past the shoulders."};
  summary.finding->verdict = verdict(*summary.finding);
  KeyFigures key;
  key.peak_force         = 31400;
  key.peak_force_at      = 30.48;
  key.capacity           = 80000;
  key.force_margin       = 0.6075;
  key.stroke             = 127;
  key.travel             = 71.12;
  key.stroke_margin      = 0.44;
  key.outer_strain       = 0.243;
  key.outer_elongation   = 0.2751;
  key.outer_strain_at    = -2.54;
  key.nominal_elongation = 0.2;
  key.plastic_strain     = 0.251;
  key.energy_error       = 0.0012;
  key.penetration_share  = 0.000034;
  summary.figures        = key;
  summary.release        = Release{88, 88, 85, 86.5, 3, 1.5, 13558.2, 0, 3.048, true};
  return summary;
}
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

TEST_CASE("every outcome has a verdict of its own", "[unit][output]")
{
  Finding finding;
  finding.travel = 45.2;
  finding.force  = 61000;
  finding.where  = "left shoulder";

  const auto said = [&](UnitSystem units = metric) { return verdict(finding).text(units); };
  finding.outcome = Outcome::through;
  CHECK_THAT(said(), StartsWith("THROUGH") && Contains("45.2 mm"));
  finding.outcome = Outcome::stroke_out;
  CHECK_THAT(said(), StartsWith("STROKE OUT") && Contains("45.2 mm"));
  finding.outcome = Outcome::dropped;
  CHECK_THAT(said(us), StartsWith("DROPPED") && Contains("1.780 in"));

  finding.outcome = Outcome::over_capacity;
  CHECK_THAT(said(),
             StartsWith("OVER CAPACITY") && Contains("61.0 kN") && !Contains("jam"));
  finding.held = JamKind::squeezed;
  CHECK_THAT(said(), StartsWith("OVER CAPACITY") && Contains("squeezed") &&
                         Contains("left shoulder") && !Contains("would go"));
  finding.beyond        = BeyondCapacity{};
  finding.beyond->force = 105e3;
  CHECK_THAT(said(), Contains("not known"));
  finding.beyond->end = BeyondEnd::through;
  CHECK_THAT(said(), Contains("it would go through with 105 kN") && !Contains("not known"));
  finding.beyond->force_band = 11e3;
  CHECK_THAT(said(), Contains("it would go through with 105 kN +- 11.0 kN"));
  finding.beyond->end = BeyondEnd::stroke_end;
  CHECK_THAT(said(), Contains("the stroke would end before it is through"));
  finding.beyond.reset();

  finding.outcome = Outcome::jammed;
  finding.jam     = JamKind::squeezed;
  CHECK_THAT(said(), StartsWith("JAMMED") && Contains("at any force") &&
                         Contains("squeezed between plunger and shoulder") &&
                         Contains("left shoulder"));
  finding.jam = JamKind::hooked;
  CHECK_THAT(said(), Contains("hooked on the frame"));

  finding.outcome = Outcome::undecided;
  CHECK_THAT(said(), StartsWith("UNDECIDED") && Contains("says nothing about the coupon") &&
                         !Contains("JAM") && !Contains("jam"));
}

TEST_CASE("a ripple of the force stands beside the peak and among the errors",
          "[unit][output]")
{
  RunSummary summary = invented_summary();
  CHECK_THAT(finding_text(summary, "", metric),
             !Contains("ripples by") && Contains("no force ripple seen"));
  summary.figures->peak_force_band = 1200;
  summary.figures->ripple          = 0.034;
  CHECK_THAT(finding_text(summary, "", metric),
             Contains("smooth course; the computed force ripples by 1.20 kN about it") &&
                 Contains("force ripple 3.4 %"));
}

TEST_CASE("the finding shows figures, margins, files and the caution", "[unit][output]")
{
  const std::string text = finding_text(invented_summary(), "runs/sound-pass", metric);
  CHECK_THAT(text, StartsWith("Kestrel Haven, sound pass\nTHROUGH") &&
                       Contains("Both tips are past the shoulders."));
  CHECK_THAT(text, Contains("31.4 kN at 30.5 mm") && Contains("margin 60.8 %"));
  CHECK_THAT(text, Contains("127.0 mm, used 71.1 mm, margin 44.0 %"));
  CHECK_THAT(text, Contains("27.5 %") && Contains("0.243") &&
                       Contains("2.5 mm left of the coupon's centre"));
  CHECK_THAT(text, Contains("20.0 %, thickness / (plunger width + thickness)"));
  CHECK_THAT(text, Contains("3.0 deg left, 1.5 deg right"));
  CHECK_THAT(text, Contains("at most 3.05 m/s") && Contains("13.6 J"));
  CHECK_THAT(text, Contains("energy 0.12 %") && Contains("penetration 0.0034 %"));
  CHECK_THAT(text, Contains("Files in runs/sound-pass") && Contains("travel.csv"));
  CHECK_THAT(text, Contains("eye protection") && Contains("rated force") &&
                       Contains("not an acceptance") && Contains("governing code"));

  const std::string foreign = finding_text(invented_summary(), "", us);
  CHECK_THAT(foreign, Contains("7.06 kip at 1.200 in") && Contains("10.0 ft/s") &&
                          Contains("10.0 ft lbf"));
  CHECK_THAT(foreign, !Contains(" kN") && !Contains(" mm") && !Contains("Files in"));
}

TEST_CASE("a half model's figures are told of both sides", "[unit][output]")
{
  RunSummary summary               = invented_summary();
  summary.figures->outer_strain_at = 2.54;
  for (const char *model : {"half", "quarter"}) // a quarter: half of the width as well
  {
    summary.origin.model   = model;
    const std::string text = finding_text(summary, "", metric);
    CHECK_THAT(text, Contains("2.5 mm from the coupon's centre, on both sides") &&
                         Contains("1.5 deg on either side"));
    CHECK_THAT(text, !Contains("right of") && !Contains("left"));
  }
  summary.origin.model = "half, cut along its length"; // of a body: both sides are there
  CHECK_THAT(finding_text(summary, "", metric), Contains("right of"));
}

TEST_CASE("a finding's account is told in the units asked for", "[unit][output]")
{
  RunSummary summary = invented_summary();
  summary.finding->account << "A leg is ";
  summary.finding->account.add(Evidence::Measure::room, 12.7) << " thick.";
  CHECK_THAT(finding_text(summary, "", us), Contains("A leg is 0.500 in thick."));
  CHECK_THAT(finding_text(summary, "", metric), Contains("A leg is 12.70 mm thick."));
}

TEST_CASE("what is not known is not shown as a figure", "[unit][output]")
{
  RunSummary summary          = invented_summary();
  summary.release->completed  = false;
  const std::string unsettled = finding_text(summary, "", metric);
  CHECK_THAT(unsettled, Contains("springback") && Contains("unknown: the release did not"));
  CHECK_THAT(unsettled, !Contains("3.0 deg") && !Contains("ejection speed"));

  RunSummary broken;
  broken.state           = RunState::failed;
  broken.failure         = "out of memory";
  const std::string text = finding_text(broken, "", metric);
  CHECK_THAT(text, StartsWith("NO FINDING: the run is failed: out of memory.") &&
                       !Contains("peak ram force"));
}
