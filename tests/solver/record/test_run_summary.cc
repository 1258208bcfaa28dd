// run.json is valid JSON whatever is in it, and its figures are those of the samples.

#include "inputs/text/json.h"
#include "solver/record/run_summary.h"
#include "tests/support/reference_case.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// The member at `section.member`; throws where there is none.
const Json &at(const Json &json, std::string path)
{
  std::replace(path.begin(), path.end(), '.', '/');
  return json.at(Json::json_pointer('/' + path));
}

/// A coupon of 10 mm over a plunger of 40 mm (invented).
Case invented_case()
{
  Case given  = reference_case();
  given.title = "";
  given.ram   = {80000, 120};
  return given;
}

std::vector<PassSample> invented_samples()
{
  std::vector<PassSample> samples(4);
  const double            travels[] = {10, 30, 50, 50};
  const double            forces[]  = {20000, 36000, 5000, 0};
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    samples[i].step       = static_cast<int>(i) + 1;
    samples[i].travel     = travels[i];
    samples[i].ram_force  = forces[i];
    samples[i].iterations = 3;
    for (const ToolPlace shoulder : {tool_at::left_shoulder, tool_at::right_shoulder})
      samples[i].tool(shoulder).normal = i < 3 ? 4000 : 0; // held till then
  }
  samples[1].refusals                      = 2;
  samples[2].kind                          = StepKind::relax;
  samples[3].kind                          = StepKind::release;
  samples[2].outer_strain                  = 0.2;
  samples[2].outer_strain_at               = -1.5;
  samples[3].outer_strain                  = 0.19;
  samples[3].outer_strain_at               = 4;
  samples[1].energy.error                  = 0.004;
  samples[0].equilibrium_error             = 0.002;
  samples[2].penetration                   = 0.008;
  samples[2].energy.regularisation         = -3;
  samples[2].energy.ram_work               = 1000;
  samples[1].walk                          = -0.7;
  samples[2].walk                          = 0.4;
  samples[1].wrap                          = 165;
  samples[2].wrap                          = 120;
  samples[1].nose_gap                      = 4.5;
  samples[2].nose_gap                      = 2.5;
  samples[2].tool(tool_at::plunger).normal = 5000;
  return samples;
}
} // namespace

TEST_CASE("any text survives the way through JSON", "[unit][output]")
{
  std::string words =
      "quote \" slash \\ tab \t feed \n return \r bell \a umlaut \xc3\xbc /";
  words += std::string(1, '\x7f');
  const Json json = Json::parse(json_text({{words, words}}));
  REQUIRE(json.size() == 1);
  CHECK(json.begin().key() == words);
  CHECK(json.begin().value() == words);
}

TEST_CASE("JSON keeps order, kinds and exact numbers", "[unit][output]")
{
  Json json         = {{"z", 0.1}, {"a", not_a_number}, {"yes", true}, {"none", Json()}};
  json["null"]      = "null";
  json["big"]       = 9007199254740993;
  json["many"]      = {1, Json::object(), Json::array()};
  json["third"]     = 1.0 / 3.0;
  json["whole"]     = -10.0;
  json["large"]     = 1e300;
  json["endless"]   = std::numeric_limits<double>::infinity();
  json["not_known"] = known("");
  CHECK(json_text(json) ==
        "{\n  \"z\": 0.1,\n  \"a\": null,\n  \"yes\": true,\n  \"none\": null,\n"
        "  \"null\": \"null\",\n  \"big\": 9007199254740993,\n"
        "  \"many\": [\n    1,\n    {},\n    []\n  ],\n"
        "  \"third\": 0.3333333333333333,\n  \"whole\": -10,\n  \"large\": 1e+300,\n"
        "  \"endless\": null,\n  \"not_known\": null\n}");
  CHECK(Json::parse(json_text(json)).at("third").get<double>() == 1.0 / 3.0);
}

TEST_CASE("a path that is no UTF-8 leaves run.json readable", "[unit][output]")
{
  RunSummary summary;
  summary.origin.case_source = "caf\xe9.ini";
  CHECK(at(Json::parse(summary_text(summary)), "made_with.case_source") ==
        "caf\xef\xbf\xbd.ini"); // U+FFFD
}

TEST_CASE("key figures are the peaks, sums and margins of the samples", "[unit][output]")
{
  const KeyFigures key = key_figures(invented_samples(), invented_case());
  CHECK(key.peak_force == 36000);
  CHECK(key.peak_force_at == 30);
  CHECK(key.force_margin == Approx((80.0 - 36.0) / 80.0));
  CHECK(key.travel == 50);
  CHECK(key.stroke_margin == Approx(70.0 / 120.0));
  CHECK(key.outer_strain == 0.2);
  CHECK(key.outer_strain_at == -1.5);
  CHECK(key.outer_strain_travel == 50);
  // exp(0.2) from memory.
  CHECK(key.outer_elongation == Approx(0.2214027582).epsilon(1e-9));
  // A bar bent round half its plunger's width: t / (A + t), common practice, no source.
  CHECK(key.nominal_elongation == Approx(0.2));
  CHECK(key.energy_error == 0.004);
  CHECK(key.energy_error_at == 30);
  CHECK(key.equilibrium_error == 0.002);
  CHECK(key.equilibrium_error_at == 10);
  CHECK(key.penetration_share == Approx(0.0008));
  CHECK(key.regularisation_share == Approx(0.003));
  CHECK(key.walk == -0.7);
  CHECK(key.steps == 4);
  CHECK(key.jumps == 1);
  CHECK(key.iterations == 12);
  CHECK(key.refusals == 2);
}

TEST_CASE("how the nose fits at the end, and whether a wire goes in", "[unit][output]")
{
  auto       samples = invented_samples();
  const Case given   = invented_case();
  KeyFigures key     = key_figures(samples, given);
  CHECK(key.nose_gap == 4.5);
  CHECK(key.nose_gap_end == 2.5); // of the last loaded step, not of the release
  CHECK(key.wrap == 165);
  CHECK(key.wrap_end == 120);
  CHECK(key.walk_end == 0.4);
  CHECK(wire_goes_in(key, 2.5).value());
  CHECK_FALSE(wire_goes_in(key, 3.175).value());
  CHECK_FALSE(wire_goes_in(key, 0).has_value());

  samples[2].wrap = 60; // no U yet
  CHECK_FALSE(wire_goes_in(key_figures(samples, given), 3.175).has_value());

  // A coupon that has left the nose has no gap under it, not one of nothing.
  samples[2].tool(tool_at::plunger).normal = 0;
  key                                      = key_figures(samples, given);
  CHECK(std::isnan(key.nose_gap_end));
  CHECK_FALSE(wire_goes_in(key, 3.175).has_value());
}

TEST_CASE("run.json holds the face at both moments, by zone", "[unit][output]")
{
  Case given                       = invented_case();
  given.coupon.length              = 160;
  given.coupon.offset              = 1; // not symmetric: the whole coupon
  given.weld.width                 = 12;
  given.weld.metal_flow.elongation = 0.5;
  given.inspection.gauge_length    = 40;
  std::vector<SurfaceRow> rows;
  for (double x = -79.5; x < 80; x += 1)
  {
    SurfaceRow row;
    row.position     = x;
    row.axial_strain = std::log1p(std::abs(x) < 6 ? 0.3 : std::abs(x) < 30 ? 0.2 : 0.);
    row.triaxiality  = 0.5;
    rows.push_back(row);
  }
  RunSummary summary;
  summary.figures       = key_figures(invented_samples(), given);
  summary.wire_diameter = 3.175;
  summary.face_at_end   = face_figures(given, rows, 50);
  const Json tree       = Json::parse(summary_text(summary));
  const auto real       = [&](const char *key) { return at(tree, key).get<double>(); };
  CHECK(real("convex_face.gauge_length_mm") == 40);
  CHECK(tree.at("convex_face").count("at_peak_force") == 0);
  CHECK(real("convex_face.at_end.travel_mm") == 50);
  CHECK(real("convex_face.at_end.peak_elongation") == Approx(0.3));
  CHECK(at(tree, "convex_face.at_end.peak_zone") == "weld");
  CHECK(real("convex_face.at_end.peak_over_nominal") == Approx(1.5));
  CHECK(real("convex_face.at_end.peak_triaxiality") == 0.5);
  CHECK(real("convex_face.at_end.weld_peak_over_base_peak") == Approx(1.5));
  CHECK(at(tree, "convex_face.at_end.haz_peak_over_base_peak").is_null());
  CHECK(at(tree, "convex_face.at_end.weld_and_haz_inside_bend") == true);
  CHECK(real("convex_face.at_end.weld_and_haz_margin_mm") == Approx(24).margin(0.5));
  CHECK(real("convex_face.at_end.zones.weld.to_mm") == Approx(6));
  CHECK(real("convex_face.at_end.zones.weld.ductility_used") == Approx(0.6));
  CHECK(at(tree, "convex_face.at_end.zones.weld.limit_measure") == "tension elongation");
  CHECK(at(tree, "convex_face.at_end.zones.base.limit").is_null());
  CHECK(at(tree, "fit.wire_goes_in") == false);
  CHECK(real("fit.nose_gap_end_mm") == 2.5);
}

TEST_CASE("an error that is no number is not hidden by the sound ones", "[unit][output]")
{
  auto samples               = invented_samples();
  samples[1].energy.error    = not_a_number;
  samples[2].outer_strain    = not_a_number;
  samples[2].outer_strain_at = 7;
  const KeyFigures key       = key_figures(samples, invented_case());
  CHECK(std::isnan(key.energy_error));
  CHECK(std::isnan(key.outer_strain));
}

TEST_CASE("run.json of a run under way says what it is", "[unit][output]")
{
  RunSummary summary;
  summary.origin.title     = "first \"pass\"";
  summary.origin.case_hash = "0123abcd";
  const Json tree          = Json::parse(summary_text(summary));
  CHECK(at(tree, "program") == "throughbend");
  CHECK(at(tree, "state") == "running");
  CHECK(at(tree, "title") == "first \"pass\"");
  CHECK(at(tree, "made_with.case_hash") == "0123abcd");
  CHECK(tree.count("finding") == 0);
  CHECK(tree.count("key_figures") == 0);
}

TEST_CASE("run.json of a finished run holds the finding and every figure", "[unit][output]")
{
  RunSummary summary;
  summary.state   = RunState::finished;
  summary.figures = key_figures(invented_samples(), invented_case());
  summary.finding =
      Finding{Outcome::over_capacity, {}, JamKind::hooked, "left frame", 33.5, 80000,
              "The end\nhas caught."};
  summary.finding->verdict << "OVER CAPACITY at ";
  summary.finding->verdict.add(Evidence::Measure::length, 33.5);
  summary.finding->beyond =
      BeyondCapacity{BeyondEnd::through, 110, 105e3, 74, 190e3, 21e3, 0.32};
  summary.finding->events.push_back(
      {EventKind::frame_touched, "left", 5, 20, 10e3, 14e3, 19, 20e3});
  summary.finding->accuracy.trust = Trust::low;
  summary.finding->accuracy.reasons.emplace_back("energy error 2.1 %");
  summary.metal   = MetalAnswer{MetalVerdict::beyond, Evidence("The weld tears.")};
  summary.release = Release{88, 89, 85, 86.5, 3, 2.5, 12000, 2000, 7.25, true};
  summary.effort  = RunEffort{64, 686, 300, {2.0, 0.75, 0.25, 0.5}};
  summary.origin.git_revision = "abc";
  summary.origin.blas         = "OpenBLAS 0.3.21";
  summary.origin.blas_threads = 1;
  summary.origin.ranks        = 2;
  summary.origin.libraries    = {{"boost", "1.74"}};

  const ScratchFolder folder;
  write_run_summary(folder / "run.json", summary);
  const Json tree = Json::parse(content(folder / "run.json"));
  const auto text = [&](const char *key) { return at(tree, key).get<std::string>(); };
  const auto real = [&](const char *key) { return at(tree, key).get<double>(); };
  CHECK(text("state") == "finished");
  CHECK(text("finding.outcome") == "over-capacity");
  CHECK(at(tree, "finding.jam").is_null());
  CHECK(text("finding.held_by") == "hooked");
  CHECK(text("finding.verdict.words") == "OVER CAPACITY at {1}");
  CHECK(real("finding.verdict.1.length_mm") == 33.5);
  CHECK(text("finding.beyond_capacity.ends") == "through");
  CHECK(real("finding.beyond_capacity.force_it_takes_N") == 105e3);
  CHECK(real("finding.beyond_capacity.largest_shoulder_force_N") == 190e3);
  const Json &event = at(tree, "finding.events").front();
  CHECK(event.at("kind") == "frame touched");
  CHECK(event.at("from_travel_mm") == 5);
  CHECK(event.at("ram_force_before_N") == 10e3);
  CHECK(text("metal.answer") == "beyond");
  CHECK(text("metal.account.words") == "The weld tears.");
  CHECK(text("numerical_quality.accuracy") == "low");
  CHECK(text("finding.where") == "left frame");
  CHECK(text("finding.evidence") == "The end\nhas caught.");
  CHECK(real("finding.travel_mm") == 33.5);
  CHECK(real("key_figures.peak_ram_force_N") == 36000);
  CHECK(real("key_figures.peak_ram_force_travel_mm") == 30);
  CHECK(real("key_figures.capacity_margin") == summary.figures->force_margin);
  CHECK(real("key_figures.peak_outer_strain_log") == 0.2);
  CHECK(real("key_figures.peak_outer_strain_position_mm") == -1.5);
  CHECK(real("key_figures.nominal_elongation") == 0.2);
  CHECK(real("release.left_springback_deg") == 3);
  CHECK(real("release.right_angle_free_deg") == 86.5);
  CHECK(real("release.ejection_speed_bound_m_per_s") == 7.25);
  CHECK(at(tree, "release.completed") == true);
  CHECK(real("numerical_quality.worst_energy_error") == 0.004);
  CHECK(real("numerical_quality.worst_equilibrium_error") == 0.002);
  CHECK(real("numerical_quality.deepest_penetration_mm") == 0.008);
  CHECK(real("numerical_quality.worst_force_ripple") == 0);
  CHECK(real("key_figures.peak_ram_force_ripple_N") == 0);
  CHECK(at(tree, "finding.close") == false);
  CHECK(at(tree, "effort.steps") == 4);
  CHECK(at(tree, "effort.refusals") == 2);
  CHECK(at(tree, "effort.factorisations") == 300);
  CHECK(at(tree, "effort.cells") == 64);
  CHECK(at(tree, "effort.dofs") == 686);
  CHECK(real("effort.wall_time_s.contact") == 0.25);
  CHECK(real("effort.wall_time_s.other") == 0.5);
  CHECK(text("made_with.git_revision") == "abc");
  CHECK(text("made_with.blas") == "OpenBLAS 0.3.21");
  CHECK(at(tree, "made_with.blas_threads") == 1);
  CHECK(at(tree, "made_with.ranks") == 2);
  CHECK(text("made_with.libraries.boost") == "1.74");
  CHECK_THAT(text("note"), Contains("not an acceptance"));
}

TEST_CASE("run.json keeps the numbers of the evidence apart from its words",
          "[unit][output]")
{
  RunSummary summary;
  summary.finding = Finding{};
  summary.finding->account << "A leg is ";
  summary.finding->account.add(Evidence::Measure::room, 12.7) << " thick, bent by ";
  summary.finding->account.add(Evidence::Measure::angle, 41) << ".";
  const Json tree = Json::parse(summary_text(summary));
  CHECK(at(tree, "finding.account.words") == "A leg is {1} thick, bent by {2}.");
  CHECK(at(tree, "finding.account.1.room_mm") == 12.7);
  CHECK(at(tree, "finding.account.2.angle_deg") == 41);
}

TEST_CASE("a figure that is not known is null in run.json", "[unit][output]")
{
  RunSummary summary;
  summary.figures               = KeyFigures();
  summary.figures->energy_error = not_a_number;
  CHECK(at(Json::parse(summary_text(summary)), "numerical_quality.worst_energy_error")
            .is_null());
}

TEST_CASE("a time stamp is ISO 8601 in UTC", "[unit][output]")
{
  CHECK_THAT(time_stamp(), Catch::Matchers::Matches("20[0-9]{2}-[01][0-9]-[0-3][0-9]T"
                                                    "[0-2][0-9]:[0-5][0-9]:[0-6][0-9]Z"));
}
