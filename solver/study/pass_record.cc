#include "solver/study/pass_record.h"

#include "inputs/text/json.h"
#include "solver/outcome/metal_answer.h"
#include "solver/record/finding_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace throughbend
{
namespace
{
constexpr std::size_t curve_points = 120;

void gather(const Json &json, const std::string &path, std::map<std::string, double> &into)
{
  for (const auto &[name, value] : json.items())
  {
    const std::string here = path.empty() ? name : path + "." + name;
    if (value.is_number())
      into[here] = value.get<double>();
    else if (value.is_object())
      gather(value, here, into);
  }
}

/// Of the loaded steps: some hundred even ones, the first, the last and the largest force.
std::vector<std::size_t> kept_steps(const std::vector<PassSample> &samples)
{
  std::vector<std::size_t> loaded;
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (samples[i].kind != StepKind::release)
      loaded.push_back(i);
  std::set<std::size_t> kept;
  const std::size_t     n = std::min(loaded.size(), curve_points);
  for (std::size_t k = 0; k < n; ++k)
    kept.insert(loaded[n == 1 ? 0 : k * (loaded.size() - 1) / (n - 1)]);
  const auto largest =
      std::max_element(loaded.begin(), loaded.end(),
                       [&](std::size_t a, std::size_t b)
                       { return samples[a].ram_force < samples[b].ram_force; });
  if (largest != loaded.end())
    kept.insert(*largest);
  return {kept.begin(), kept.end()};
}
} // namespace

std::map<std::string, double> figures_of(const std::string &summary_text)
{
  Json json = Json::parse(summary_text);
  for (const char *other : {"effort", "made_with", "case", "error_bars"})
    json.erase(other);
  std::map<std::string, double> figures;
  if (json.contains("key_figures"))
    gather(json["key_figures"], "", figures);
  json.erase("key_figures");
  gather(json, "", figures);
  return figures;
}

StudyPass pass_record(const RunSummary &summary, const std::vector<PassSample> &samples)
{
  const Finding &finding = *summary.finding;
  StudyPass      pass;
  pass.outcome = to_text(finding.outcome);
  if (const auto &held = finding.jam ? finding.jam : finding.held)
    pass.held = to_text(*held);
  pass.verdict = finding.verdict.text(UnitSystem::metric);
  pass.evidence =
      finding.account.empty() ? finding.evidence : finding.account.text(UnitSystem::metric);
  Json accounts       = Json::object();
  accounts["verdict"] = account_json(finding.verdict);
  if (!finding.account.empty())
    accounts["evidence"] = account_json(finding.account);
  pass.accounts = json_text(accounts);
  pass.metal =
      summary.metal ? to_text(summary.metal->verdict) : to_text(MetalVerdict::not_known);
  pass.accuracy = to_text(finding.accuracy.trust);
  for (const PassEvent &event : finding.events)
    pass.events.push_back(to_text(event.kind));
  pass.figures = figures_of(summary_text(summary));
  for (const std::size_t step : kept_steps(samples))
  {
    pass.travel.push_back(samples[step].travel);
    pass.force.push_back(samples[step].ram_force);
  }
  return pass;
}
} // namespace throughbend
