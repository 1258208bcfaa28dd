#pragma once
// Studies made up for tests: every number, finding and shape is invented, with formulas
// that look somewhat like bending. None of it is a result.

#include "solver/study/file/study_record.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace throughbend
{
inline StudyOutline strip_outline(const double thickness, const double down)
{
  // A strip of 160 mm around a nose of 20 mm that has gone `down` [mm].
  const double angle = std::min(M_PI / 2, down / 60), radius = 20 + thickness / 2;
  const auto   place = [&](const double along, const double off)
  {
    const double side = along < 0 ? -1 : 1, s = std::abs(along);
    const double bent = std::min(s, radius * angle), turn = bent / radius;
    const double rest = s - bent;
    const double x =
        radius * std::sin(turn) + rest * std::cos(turn) + off * std::sin(turn) * -1;
    const double y =
        radius * (1 - std::cos(turn)) + rest * std::sin(turn) + off * std::cos(turn);
    return std::pair(side * x, y - down + thickness / 2);
  };
  StudyOutline  outline;
  constexpr int n = 80;
  outline.name    = "coupon";
  for (int i = 0; i <= n; ++i)
  {
    const auto [x, y] = place(-80 + 160. * i / n, -thickness / 2);
    outline.x.push_back(x);
    outline.y.push_back(y);
  }
  for (int i = n; i >= 0; --i)
  {
    const auto [x, y] = place(-80 + 160. * i / n, thickness / 2);
    outline.x.push_back(x);
    outline.y.push_back(y);
  }
  return outline;
}

inline std::vector<StudyOutline> tool_outlines(const double thickness, const double down,
                                               const bool all)
{
  std::vector<StudyOutline> tools(1);
  StudyOutline             &nose = tools[0];
  nose.name                      = "plunger";
  const double low               = thickness - down;
  nose.x                         = {-20, 20};
  nose.y                         = {low + 120, low + 120};
  for (int i = 0; i <= 24; ++i)
  {
    const double turn = M_PI * i / 24;
    nose.x.push_back(20 * std::cos(turn));
    nose.y.push_back(low + 20 - 20 * std::sin(turn));
  }
  for (const double side : {-1., 1.})
    if (all)
    {
      StudyOutline block;
      block.name = side < 0 ? "left shoulder" : "right shoulder";
      block.x    = {side * 90, side * 90, side * 31.6};
      block.y    = {0, -45, -45};
      for (int i = 0; i <= 12; ++i)
      {
        const double turn = M_PI / 2 * i / 12;
        block.x.push_back(side * (51.6 - 20 * std::cos(turn)));
        block.y.push_back(-20 + 20 * std::sin(turn));
      }
      tools.push_back(block);
    }
  return tools;
}

/// thickness [mm], friction [-], yield [MPa].
inline StudyPass made_up_pass(const double thickness, const double friction,
                              const double yield)
{
  StudyPass    pass;
  const double room = 11.6 - 4 * (friction - 0.1);
  const double force =
      297 * thickness * thickness * (1 + 1.2 * (friction - 0.12)) * (yield / 250);
  const double stretch = 1.23 * thickness / (40 + thickness);
  pass.case_hash       = "made up";
  pass.accuracy        = thickness > 11.2 ? "low" : "sound";
  pass.metal           = stretch > 0.27 ? "beyond" : "within";
  double end           = 112;
  if (thickness < 6.4)
  {
    pass.outcome = "dropped";
    pass.verdict = "DROPPED: the coupon left the shoulders before it was bent to a U.";
    end          = 34;
  }
  else if (thickness > room + 1.2)
  {
    pass.outcome = "jammed";
    pass.held    = "squeezed";
    pass.verdict = "JAMMED: squeezed between plunger and shoulders at 48 mm of travel.";
    end          = 48;
  }
  else if (thickness > room)
  {
    pass.outcome = "over-capacity";
    pass.held    = friction > 0.25 ? "squeezed" : "";
    pass.verdict = "OVER CAPACITY: the ram's 45.0 kN ran out at 44 mm of travel.";
    end          = 44;
    pass.figures["finding.beyond_capacity.force_it_takes_N"] = 1.4 * force;
  }
  else
  {
    pass.outcome = "through";
    pass.verdict = "THROUGH: the coupon is bent and clear of the shoulders after 112 mm of "
                   "travel.";
    pass.figures["release.right_springback_deg"] = 1.8;
  }
  const double largest                 = pass.outcome == "over-capacity" ? 45000 : force;
  pass.figures["peak_ram_force_N"]     = largest;
  pass.figures["capacity_margin"]      = 1 - largest / 45000;
  pass.figures["peak_face_strain_log"] = std::log1p(stretch);
  pass.figures["peak_face_elongation"] = stretch;
  pass.seconds                         = 1.4;
  for (int i = 0; i <= 100; ++i)
  {
    const double way = end * i / 100;
    pass.travel.push_back(way);
    pass.force.push_back(largest * std::exp(-std::pow((way - 40) / 26, 2)) *
                         std::min(1., way / 4));
  }
  for (int i = 0; i <= 12; ++i)
  {
    StudyMoment moment;
    moment.travel = end * i / 12;
    moment.force  = pass.force[static_cast<std::size_t>(100 * i / 12)];
    moment.coupon = strip_outline(thickness, moment.travel);
    moment.tools  = tool_outlines(thickness, moment.travel, i == 0);
    pass.moments.push_back(moment);
  }
  return pass;
}

inline StudyPass undecided_pass(const std::vector<double> &values)
{
  StudyPass pass;
  pass.values  = values;
  pass.outcome = "undecided";
  pass.metal   = "not known";
  pass.verdict = "UNDECIDED: the computation gave up. This says nothing about the coupon.";
  return pass;
}

inline StudyRecord made_up_study(const StudyKind kind)
{
  StudyRecord record;
  record.kind  = kind;
  record.whole = true;
  record.title = "Kestrel Haven training yard: made-up study";
  record.case_text =
      "[case]\ntitle = made up\n[coupon]\nlength = 160 mm\nwidth = 38 mm\n"
      "thickness = 10 mm\n[material]\nlaw = voce\nyield = 250 MPa\n"
      "saturation = 200 MPa\nrate = 12\nelongation = 0.27\n[plunger]\nwidth = "
      "40 mm\n[shoulders]\nradius = 20 mm\nopening = 63.2 mm\n[ram]\ncapacity "
      "= 45 kN\nstroke = 120 mm\n";
  return record;
}

inline StudyKey thickness_key()
{
  return {"coupon.thickness", "mm", 1, 10};
}
inline StudyKey friction_key()
{
  return {"friction.shoulders", "", 1, 0.12};
}
inline StudyKey yield_key()
{
  return {"material.yield", "MPa", 1, 250};
}

inline std::string numbers_text(const std::vector<double> &values)
{
  std::string text;
  for (const double value : values)
    text += (text.empty() ? "" : ", ") + std::to_string(value);
  return "[" + text + "]";
}

inline std::vector<double> even(const double low, const double high, const int n)
{
  std::vector<double> values;
  for (int i = 0; i < n; ++i)
    values.push_back(n == 1 ? low : low + (high - low) * i / (n - 1));
  return values;
}

/// A map of one to three keys; a level of one drops its key.
inline StudyRecord made_up_map(const int nx, const int ny, const int nz)
{
  StudyRecord               record = made_up_study(StudyKind::map);
  const std::vector<double> t = even(6, nx == 12 ? 11.5 : 13.5, nx), f = even(0, 0.4, ny),
                            s = even(200, 400, nz);
  record.keys                 = {thickness_key()};
  if (ny > 1)
    record.keys.push_back(friction_key());
  if (nz > 1)
    record.keys.push_back(yield_key());
  for (const double yield : s)
    for (std::size_t j = 0; j < f.size(); ++j)
      for (std::size_t i = 0; i < t.size(); ++i)
      {
        const double thickness = t[i], friction = f[j];
        StudyPass    pass =
            made_up_pass(thickness, ny > 1 ? friction : 0.12, nz > 1 ? yield : 250);
        pass.values = {thickness};
        if (ny > 1)
          pass.values.push_back(friction);
        if (nz > 1)
          pass.values.push_back(yield);
        if (ny > 1 && j + 1 == f.size() && i == t.size() / 2)
          pass = undecided_pass(pass.values);
        record.passes.push_back(pass);
      }
  record.planned = record.passes.size();
  record.answers =
      "{\"grid\": [" + std::to_string(nx) + ", " + std::to_string(ny) +
      "], \"refined\": false, \"levels\": {\"coupon.thickness\": " + numbers_text(t) +
      (ny > 1 ? ", \"friction.shoulders\": " + numbers_text(f) : "") +
      (nz > 1 ? ", \"material.yield\": " + numbers_text(s) : "") +
      "}, \"rule\": {\"coupon.thickness\": [null, 10.0]}}";
  return record;
}

/// A map of 13 x 9 levels as --refine leaves it: every fourth level, and all levels where
/// passes differ, block by block; the case's own pass lies between its levels.
inline StudyRecord made_up_refined_map()
{
  StudyRecord                    record = made_up_map(13, 9, 1);
  const std::vector<StudyPass>   all    = record.passes;
  std::vector<std::vector<bool>> asked(13, std::vector<bool>(9, false));
  const auto                     outcome = [&](const int i, const int j)
  {
    const StudyPass &pass = all[static_cast<std::size_t>(j * 13 + i)];
    return pass.outcome + pass.metal;
  };
  struct Part
  {
    int i0, j0, i1, j1;
  };
  std::vector<Part> parts;
  for (int j = 0; j < 8; j += 4)
    for (int i = 0; i < 12; i += 4)
      parts.push_back({i, j, i + 4, j + 4});
  for (bool more = true; more;)
  {
    more = false;
    std::vector<Part> after;
    for (const Part &part : parts)
      for (const int i : {part.i0, part.i1})
        for (const int j : {part.j0, part.j1})
          asked[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] = true;
    for (const Part &part : parts)
    {
      bool differs = false;
      for (int i = part.i0; i <= part.i1; ++i)
        for (int j = part.j0; j <= part.j1; ++j)
          differs =
              differs || (asked[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] &&
                          outcome(i, j) != outcome(part.i0, part.j0));
      if (!differs || part.i1 - part.i0 == 1)
      {
        after.push_back(part);
        continue;
      }
      more           = true;
      const int half = (part.i1 - part.i0) / 2;
      for (const int i : {part.i0, part.i0 + half})
        for (const int j : {part.j0, part.j0 + half})
          after.push_back({i, j, i + half, j + half});
    }
    parts = after;
  }
  record.passes.clear();
  for (std::size_t j = 0; j < 9; ++j)
    for (std::size_t i = 0; i < 13; ++i)
      if (asked[i][j])
        record.passes.push_back(all[j * 13 + i]);
  StudyPass own = made_up_pass(10, 0.12, 250);
  own.values    = {10, 0.12};
  record.passes.push_back(own);
  record.planned = record.passes.size();
  record.answers.replace(record.answers.find("false"), 5, "true");
  return record;
}

inline StudyRecord made_up_limits()
{
  StudyRecord record = made_up_study(StudyKind::limit);
  record.keys        = {thickness_key(), friction_key()};
  const auto add     = [&](const double thickness, const double friction)
  {
    StudyPass pass = made_up_pass(thickness, friction, 250);
    pass.values    = {thickness, friction};
    record.passes.push_back(pass);
  };
  add(10, 0.12);
  for (const double t : {9., 10.25, 11.5, 12.75, 14., 11.55, 11.52, 11.53})
    add(t, 0.12);
  record.passes.push_back(undecided_pass({13.4, 0.12}));
  for (const double f : {0., 0.1, 0.2, 0.3, 0.4, 0.5})
    add(10, f);
  record.planned = record.passes.size();
  record.answers =
      R"({"until": "through", "limits": [
  {"key": "coupon.thickness", "from": 9, "to": 14, "within": 0.05,
   "changes": [{"below": {"value": 11.52, "pass": 7, "holds": true, "outcome": "through"},
                "above": {"value": 11.53, "pass": 8, "holds": false, "outcome": "over-capacity"}}],
   "undecided": [9],
   "check": {"value": 11.1, "line": "thickness against the room", "says": "close"}},
  {"key": "friction.shoulders", "from": 0, "to": 0.5, "within": 0.01, "changes": [],
   "undecided": [], "check": null}]})";
  return record;
}

inline StudyRecord made_up_spread(const int n)
{
  StudyRecord record = made_up_study(StudyKind::spread);
  record.keys        = {thickness_key(), friction_key(), yield_key()};
  std::mt19937                     dice(7);
  std::normal_distribution<double> normal;
  const auto                       draw = [&](const double mean, const double wide)
  { return mean + wide * normal(dice); };
  for (int i = 0; i < n; ++i)
  {
    const double t = draw(10.4, 0.35), f = std::max(0.02, draw(0.15, 0.05)),
                 s = draw(300, 22);
    StudyPass pass = made_up_pass(t, f, s);
    pass.values    = {t, f, s};
    if (i == 11)
      pass = undecided_pass(pass.values);
    record.passes.push_back(pass);
  }
  record.planned = record.passes.size();
  record.answers =
      R"({"samples": 400, "undecided": 1, "inputs": [
 {"key": "coupon.thickness", "law": "normal", "says": "10.4 mm +- 0.35 mm", "source": "invented"},
 {"key": "friction.shoulders", "law": "normal", "says": "0.15 +- 0.05", "source": ""},
 {"key": "material.yield", "law": "normal", "says": "300 MPa +- 22 MPa", "source": "invented"}],
 "chances": [{"what": "not through", "share": 0.004, "low": 0.0007, "high": 0.02, "level": 0.95, "passes": 2, "of": 399, "not_known": 1},
  {"what": "force > capacity", "share": 0.12, "low": 0.091, "high": 0.155, "level": 0.95},
  {"what": "stretch > limit", "share": 0.03, "low": 0.017, "high": 0.05, "level": 0.95}],
 "quantiles": {"peak_ram_force_N": {"0.05": 34000, "0.5": 39700, "0.95": 45800},
  "peak_face_strain_log": {"0.05": 0.216, "0.5": 0.226, "0.95": 0.236}},
 "quantile_bands": {"peak_ram_force_N": {"0.05": [33500, 34400], "0.5": [39200, 40100], "0.95": [45100, 46600]}},
 "weights": {"peak_ram_force_N": [
  {"key": "coupon.thickness", "first": 0.42, "first_error": 0.03, "total": 0.45, "total_error": 0.04},
  {"key": "friction.shoulders", "first": 0.11, "first_error": 0.03, "total": 0.12, "total_error": 0.03},
  {"key": "material.yield", "first": 0.44, "first_error": 0.03, "total": 0.46, "total_error": 0.04}]},
 "ranks": {"peak_ram_force_N": [{"key": "coupon.thickness", "rank": 0.66, "error": 0.03}, {"key": "material.yield", "rank": 0.7, "error": 0.03}]},
 "surrogate": {"used": true, "by_figure": {"peak_ram_force_N": {"used": true, "terms": 15, "passes": 399, "left_out_share": 0.98}}}})";
  return record;
}

inline StudyRecord made_up_choice()
{
  StudyRecord record = made_up_study(StudyKind::choice);
  record.keys        = {{"shoulders.opening", "mm", 1, 63.2}, thickness_key()};
  for (const double opening : {60., 62., 64., 66.})
    for (const double t : {9., 10.5})
    {
      StudyPass pass = made_up_pass(t + (63.2 - opening) / 2, 0.12, 250);
      pass.values    = {opening, t};
      record.passes.push_back(pass);
    }
  record.planned = record.passes.size();
  record.answers =
      R"({"fixture": {"shoulders.opening": 64, "plunger.width": 40}, "family": {"coupon.thickness": [9, 10.5]},
 "goal": "least force", "corners": 16, "sample": 64,
 "limited_by": [{"key": "shoulders.opening", "low": {"value": 62, "next": 61, "because": "over-capacity at the thickest"},
   "high": {"value": 66, "next": null, "because": "end of the given levels"}}],
 "bands": [{"key": "shoulders.opening", "low": 63.2, "high": 65.1}]})";
  return record;
}
} // namespace throughbend
