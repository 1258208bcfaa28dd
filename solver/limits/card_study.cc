#include "solver/limits/card_study.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/fixture_difference.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/stored_case.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "solver/screening/margins.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <vector>

namespace throughbend
{
namespace
{
double figure(const StudyPass &pass, const std::string &name)
{
  const auto found = pass.figures.find(name);
  return found == pass.figures.end() ? std::numeric_limits<double>::quiet_NaN()
                                     : found->second;
}

bool sound(const StudyPass &pass)
{
  return pass.outcome == "through" && pass.events.empty() && pass.accuracy == "sound" &&
         pass.metal != "beyond";
}

/// The ram's force, and for a length its stroke, leave what check asks for. With the other
/// keys the stroke is watched over by the card's own limit of the length.
bool keeps_margins(const StudyPass &pass, const std::string &key)
{
  const double least = 1 - margins::rating_share - 1e-9;
  return figure(pass, "capacity_margin") >= least &&
         (key != "coupon.length" || figure(pass, "stroke_margin") >= least);
}

/// Passes in which this key alone differs from the case, by rising value.
std::vector<const StudyPass *> along(const StudyRecord &study, const std::size_t key)
{
  std::vector<const StudyPass *> passes;
  for (const StudyPass &pass : study.passes)
  {
    bool alone = pass.words.empty();
    for (std::size_t k = 0; k < study.keys.size(); ++k)
      alone = alone && (k == key || std::abs(pass.values[k] - study.keys[k].own) <=
                                        1e-9 * std::max(1., std::abs(study.keys[k].own)));
    if (alone)
      passes.push_back(&pass);
  }
  std::sort(passes.begin(), passes.end(),
            [key](const StudyPass *a, const StudyPass *b)
            { return a->values[key] < b->values[key]; });
  return passes;
}

/// A card has no room for a long path.
std::string study_name(const std::string &folder)
{
  const std::filesystem::path path = std::filesystem::path(folder + "/").parent_path();
  const std::string           name = path.filename().string();
  return clipped(name.empty() || name == "." || name == ".." ? folder : name, 40);
}

std::string what_ends_it(const StudyPass &pass)
{
  if (pass.outcome == "through")
    return pass.metal == "beyond" ? "stretch beyond the metal"
           : pass.events.empty()  ? "accuracy " + pass.accuracy
                                  : pass.events.front();
  return pass.outcome;
}

/// Before the first that is not sound above the case's own value.
std::optional<PassLimit> limit_along(const StudyRecord &study, const std::size_t key,
                                     const std::string &folder, const Case &c)
{
  const std::vector<const StudyPass *> passes = along(study, key);
  if (passes.size() < 2)
    return std::nullopt;
  const StudyKey &k    = study.keys[key];
  const UnitKind  kind = std::get<NumberSlot>(find_option(k.key)->slot).kind;
  const auto   text  = [&](const double v) { return to_text(v, kind, UnitSystem::metric); };
  const double slack = 1e-9 * std::max(1., std::abs(k.own));
  std::size_t  from  = passes.size(); // the nearest pass at or below the own value
  for (std::size_t i = 0; i < passes.size(); ++i)
    if (passes[i]->values[key] <= k.own + slack)
      from = i;
  if (from == passes.size() || !sound(*passes[from]))
    throw InputError(
        "--from " + folder + ": of the passes along " + k.key +
        " none at or below the case's own " + text(k.own) +
        " is known to be sound next to it, so the study gives no limit for this "
        "coupon. Begin the study below it: throughbend limit --from.");
  // A card says what a fixture takes at most, and nothing of coupons that are too thin.
  for (std::size_t i = 0; i < from; ++i)
    if (!sound(*passes[i]))
      throw InputError(
          "--from " + folder + ": the pass at " + k.key + " " +
          text(passes[i]->values[key]) + " is not sound (" + what_ends_it(*passes[i]) +
          "), below the case's own; a card has no lower limit. Leave the study "
          "out.");
  std::size_t last = from;
  while (last + 1 < passes.size() && sound(*passes[last + 1]))
    ++last;
  PassLimit limit;
  limit.good = passes[last]->values[key];
  if (limit.good < k.own - slack)
    throw InputError("--from " + folder + ": the case's own " + k.key + ", " + text(k.own) +
                     ", lies beyond the last sound pass, at " + text(limit.good) + ".");
  const StudyPass *bad = last + 1 < passes.size() ? passes[last + 1] : nullptr;

  std::string margin = "force kept within 90 %";
  double      most   = limit.good;
  if (k.key == "coupon.thickness")
  {
    most = limit.good / (1 + margins::clearance_share);
    margin += ", a tenth of the thickness left for bent edges";
  }
  if (k.key == "coupon.length")
  {
    most = limit.good - 2 * margins::laid_by_eye * c.coupon.thickness;
    margin += ", so the stroke, laid off centre by 15 % of the thickness at most";
  }
  bool any = false;
  for (std::size_t i = 0; i <= last; ++i)
  {
    const StudyPass &pass = *passes[i];
    if (!keeps_margins(pass, k.key))
    {
      // What comes before the first without margin counts, from the own coupon up.
      if (i >= from)
      {
        most = i > 0 ? std::min(most, passes[i - 1]->values[key]) : 0;
        break;
      }
      continue;
    }
    any = true;
  }
  if (!any || !(most > 0) || most < passes.front()->values[key])
    throw InputError("--from " + folder + ": no pass along " + k.key +
                     " keeps check's margins: " + margin + ".");
  limit.value = most;
  // Up to the first pass at or beyond it: the force between two passes may be the upper's.
  for (std::size_t i = 0; i <= last; ++i)
  {
    const double force = figure(*passes[i], "peak_ram_force_N");
    if (std::isfinite(force))
      limit.force = std::max(limit.force, force);
    if (passes[i]->values[key] >= limit.value)
      break;
  }
  limit.by = "simulated passes";
  limit.source =
      fmt::format("study {}: sound up to {}, {}; {}", study_name(folder), text(limit.good),
                  bad == nullptr ? "where it ends"
                                 : what_ends_it(*bad) + " at " + text(bad->values[key]),
                  margin);
  return limit;
}

/// What must be the same for a limit to be this case's. Gives back what is to be said of
/// another mesh.
std::string refuse_other_case(const StudyRecord &study, const std::string &folder,
                              const Case &c)
{
  const CaseReading there = stored_case(study.case_text, folder);
  if (!there.value)
    throw InputError("--from " + folder + ": the study's case cannot be read:\n" +
                     error_list(there.errors));
  std::vector<std::string> lines = fixture_difference(*there.value, c);
  const auto               mine = case_values(c), theirs = case_values(*there.value);
  for (const std::string &line : case_difference(theirs, mine))
  {
    bool counts = true;
    for (const char *other :
         {"case.", "mesh.", "solver.", "output.", "inspection.", "plunger.", "shoulders.",
          "frame.", "jack.", "fixture.", "material.grade", "friction.lubricant"})
      counts = counts && line.rfind(other, 0) != 0;
    // A pass that keeps its margins with a weaker ram keeps them with a stronger one.
    if (line.rfind("ram.capacity", 0) == 0 && there.value->ram.capacity <= c.ram.capacity)
      counts = false;
    if (line.rfind("ram.stroke", 0) == 0 && there.value->ram.stroke <= c.ram.stroke)
      counts = false;
    if (counts)
      lines.push_back(line);
  }
  if (lines.empty())
    return there.value->mesh.level == MeshLevel::quick ? "; quick mesh" : "";
  std::string list;
  for (const std::string &line : lines)
    list += (list.empty() ? "" : "; ") + line;
  throw InputError("--from " + folder + ": a study of another case: " + list +
                   ". Leave it out, or make the study with this case.");
}

void keep_lesser(std::optional<PassLimit> &limit, const std::optional<PassLimit> &other)
{
  if (other && (!limit || other->value < limit->value))
    limit = other;
}
} // namespace

PassLimits pass_limits(const StudyRecord &study, const std::string &folder, const Case &c)
{
  if (!study.whole)
    throw InputError(
        "--from " + folder +
        ": the study is not whole. Make the rest with the same command, or leave "
        "it out.");
  const std::string mesh = refuse_other_case(study, folder, c);
  PassLimits        limits;
  for (std::size_t k = 0; k < study.keys.size(); ++k)
  {
    if (study.keys[k].key == "coupon.thickness")
      limits.thickness = limit_along(study, k, folder, c);
    if (study.keys[k].key == "coupon.length")
      limits.length = limit_along(study, k, folder, c);
    if (study.keys[k].key == "material.yield")
      limits.yield = limit_along(study, k, folder, c);
  }
  if (!limits.thickness && !limits.length && !limits.yield)
    throw InputError("--from " + folder +
                     ": the study has no passes along coupon.thickness, coupon.length or "
                     "material.yield alone, so a card can take no limit from it.");
  for (std::optional<PassLimit> *limit : {&limits.thickness, &limits.length, &limits.yield})
    if (*limit)
      (*limit)->source += mesh;
  return limits;
}

void add_limits(PassLimits &limits, const PassLimits &other)
{
  keep_lesser(limits.thickness, other.thickness);
  keep_lesser(limits.length, other.length);
  keep_lesser(limits.yield, other.yield);
}
} // namespace throughbend
