#include "postprocess/fit/fit_records.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/json.h"
#include "postprocess/fit/fit_words.h"
#include "solver/study/fit/fitted_case.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace throughbend
{
std::string fit_json(const FitReport &r)
{
  Json json                    = Json::object();
  json["program"]              = "throughbend";
  json["kind"]                 = "fit-pass";
  json["case"]                 = r.case_name;
  json["readings"]             = r.question.readings.file;
  const char *const verdicts[] = {"fitted",      "not apart", "elastic",
                                  "unexplained", "at bound",  "wrong unit"};
  json["verdict"]              = verdicts[static_cast<std::size_t>(r.judgement.verdict)];
  json["says"]                 = fit_headline(r);
  const char *const names[]    = {"friction", "flow_stress_factor", "travel_zero_mm",
                                  "force_zero_N"};
  const bool        numbers    = r.judgement.verdict == FitVerdict::good ||
                       r.judgement.verdict == FitVerdict::not_apart;
  json["estimates"] = Json::object();
  for (std::size_t k = 0; k < fit_keys; ++k)
  {
    Json       one   = Json::object();
    const bool held  = r.question.held[k];
    const bool known = numbers && (k == 0   ? r.judgement.friction_known
                                   : k == 1 ? r.judgement.factor_known
                                            : true);
    one["held"]      = held;
    one["known"]     = held || known;
    // At the best fit, also where it is not known: for drawing, not to act on.
    one["best_fit"] = r.search.fit.estimate[k];
    one["standard_error"] =
        held || !numbers ? Json() : Json(std::sqrt(r.search.covariance[k][k]));
    one["low_95"] = held || !numbers ? Json() : Json(low_of(r, k));
    one["high_95"] =
        held || !numbers ? Json() : Json(r.search.fit.estimate[k] + r.judgement.half[k]);
    json["estimates"][names[k]] = one;
  }
  json["correlation_friction_factor"] =
      numbers && !r.question.held[0] && !r.question.held[1] ? Json(r.judgement.correlation)
                                                            : Json();
  json["friction_keys"] = friction_keys(r.own);
  const Residuals &res  = r.judgement.residuals;
  json["residuals"]     = {{"rms_N", res.rms},
                           {"largest_model_force_N", res.peak},
                           {"wave_N", res.wave},
                           {"runs_test_p", res.runs},
                           {"drift_N_per_mm", res.drift},
                           {"drift_p", res.drifts},
                           {"worst_line", r.question.readings.push[res.worst].line},
                           {"worst_standard_errors", res.worst_scaled},
                           {"readings", r.question.readings.push.size()},
                           {"used", r.search.fit.used}};
  json["model"]         = {{"mesh", r.mesh},
                           {"other_mesh", r.other_mesh},
                           {"mesh_change", r.search.mesh_change},
                           {"interpolation", r.search.surface_error},
                           {"friction_by_mesh", r.search.by_mesh[0]},
                           {"factor_by_mesh", r.search.by_mesh[1]}};
  json["likely_slips"]  = r.search.wrong_units;
  json["fitted_case"]   = known(r.fitted_file);
  json["effort"]        = {
             {"passes", r.passes}, {"taken_over", r.taken_over}, {"wall_time_s", r.seconds}};
  return json_text(json) + "\n";
}

std::string residuals_csv(const FitReport &r)
{
  std::string text = csv_line({"line", "travel [mm]", "force [N]", "model [N]",
                               "residual [N]", "standard error [N]"});
  const auto  cell = [](const std::vector<double> &list, const std::size_t i)
  { return i < list.size() ? number_text(list[i]) : std::string("nan"); };
  for (std::size_t i = 0; i < r.question.readings.push.size(); ++i)
  {
    const Reading &reading = r.question.readings.push[i];
    text += csv_line({std::to_string(reading.line), number_text(reading.travel),
                      number_text(reading.force), cell(r.search.fit.model, i),
                      cell(r.search.fit.residual, i), cell(r.search.fit.sigma, i)});
  }
  return text;
}

std::string fitted_head(const FitReport &r)
{
  const FitValues &p    = r.search.fit.estimate;
  std::string      text = "# Fitted by throughbend fit-pass " + r.case_name + " " +
                     r.question.readings.file + ".\n";
  if (!r.question.held[0])
    text += fmt::format("# Friction {:.4f} +-{:.4f} (95 %) for {}.\n", p[0],
                        r.judgement.half[0], friction_keys(r.own));
  if (!r.question.held[1])
    text += fmt::format("# Every flow stress times {:.4f} +-{:.4f} (95 %).\n", p[1],
                        r.judgement.half[1]);
  return text +
         "# An estimate from readings of one push on a plane model: it holds for this "
         "plate and this grease.\n";
}
} // namespace throughbend
