#include "solver/outcome/error_bars.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace throughbend
{
namespace
{
/// Those of one cause, friction up and down, exclude each other; so of each the worst.
std::string cause_of(const std::string &what)
{
  return what.substr(0, what.find_first_of("+-"));
}

Json bar_json(const Bar &bar)
{
  return {{"down", bar.low}, {"up", bar.high}, {"whole", bar.whole}};
}

std::string whole_words(const Bar &bar)
{
  return bar.whole ? "" : " at least: not every pass of it has a finding";
}

std::string strain_words(const double own, const double change)
{
  // As elongation, which is what a person compares.
  const double points = 100 * (std::expm1(own + change) - std::expm1(own));
  return (points < 0 ? "-" : "+") + decimal_text(std::abs(points), 1);
}
} // namespace

Bar ErrorBars::bar(const BarPass::Kind kind, double BarFigures::*const figure) const
{
  Bar                                              sum;
  std::map<std::string, std::pair<double, double>> worst;
  for (const BarPass &pass : passes)
  {
    if (pass.kind != kind)
      continue;
    if (!pass.figures.known() || !own.known())
    {
      sum.whole = false;
      continue;
    }
    const double change = pass.figures.*figure - own.*figure;
    auto &[low, high]   = worst[cause_of(pass.what)];
    low                 = std::min(low, change);
    high                = std::max(high, change);
  }
  for (const auto &[cause, change] : worst)
  {
    // A setting's error may lie either way of what one finer pass shows.
    const double either = std::max(-change.first, change.second);
    sum.low -= kind == BarPass::Kind::numerics ? either : -change.first;
    sum.high += kind == BarPass::Kind::numerics ? either : change.second;
  }
  return sum;
}

Bar ErrorBars::force(const BarPass::Kind kind) const
{
  return bar(kind, &BarFigures::force);
}

Bar ErrorBars::strain(const BarPass::Kind kind) const
{
  return bar(kind, &BarFigures::strain);
}

std::vector<BarPass> ErrorBars::turned() const
{
  std::vector<BarPass> others;
  for (const BarPass &pass : passes)
    if (pass.figures.outcome != own.outcome)
      others.push_back(pass);
  return others;
}

Json error_bars_json(const ErrorBars &bars)
{
  Json json                = Json::object();
  json["force_N"]          = {{"numerics", bar_json(bars.force(BarPass::Kind::numerics))},
                              {"metal_and_friction", bar_json(bars.force(BarPass::Kind::shop))}};
  json["outer_strain_log"] = {
      {"numerics", bar_json(bars.strain(BarPass::Kind::numerics))},
      {"metal_and_friction", bar_json(bars.strain(BarPass::Kind::shop))}};
  json["passes"] = Json::array();
  for (const BarPass &pass : bars.passes)
  {
    const bool is_known = pass.figures.known();
    json["passes"].push_back(
        {{"what", pass.what},
         {"outcome", known(pass.figures.outcome)},
         {"force_N", is_known ? Json(pass.figures.force) : Json()},
         {"outer_strain_log", is_known ? Json(pass.figures.strain) : Json()}});
  }
  return json;
}

std::string error_bars_text(const ErrorBars &bars, const UnitSystem units)
{
  const auto of = [&](const Bar &bar)
  { return "-" + force_text(-bar.low, units) + " +" + force_text(bar.high, units); };
  const Bar   mesh = bars.force(BarPass::Kind::numerics);
  const Bar   shop = bars.force(BarPass::Kind::shop);
  std::string text = "  force it takes " + force_text(bars.own.force, units) +
                     ": mesh, step and contact +-" + force_text(mesh.high, units) +
                     whole_words(mesh) + "; flow stress +-10 % and friction +-0.03 " +
                     of(shop) + whole_words(shop) + "\n";
  const Bar mesh_strain = bars.strain(BarPass::Kind::numerics);
  const Bar shop_strain = bars.strain(BarPass::Kind::shop);
  text += "  outer elongation " + percent_text(std::expm1(bars.own.strain)) +
          ": mesh, step and contact +-" +
          strain_words(bars.own.strain, mesh_strain.high).substr(1) +
          whole_words(mesh_strain) + "; flow stress and friction " +
          strain_words(bars.own.strain, shop_strain.low) + " " +
          strain_words(bars.own.strain, shop_strain.high) + whole_words(shop_strain) +
          " (points of %)\n";
  for (const BarPass &pass : bars.turned())
    text += "  WITH " + pass.what + " the finding is " +
            (pass.figures.outcome.empty() ? "not known, the pass was stopped"
                                          : pass.figures.outcome) +
            "\n";
  std::string lines;
  for (std::size_t at = 0; at < text.size();)
  {
    const std::size_t end = text.find('\n', at);
    lines += wrapped(text.substr(at + 2, end - at - 2), "  ", 92);
    at = end + 1;
  }
  return "Error bars from further passes, added up as if all errors had the same sign\n" +
         lines;
}
} // namespace throughbend
