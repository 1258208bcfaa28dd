#include "postprocess/study/finding_mark.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>

namespace throughbend
{
namespace
{
// Grounds made from the colours of Okabe & Ito (2008), "Color Universal Design", and of
// different lightness.
constexpr const char *dark = "#1a2028", *light = "#ffffff";
constexpr const char *sound_ground = "#8fd1b5", *open_ground = "#c3d65f",
                     *beyond_ground = "#cf96bd", *capacity_ground = "#f0a44b",
                     *stroke_ground = "#86bbe6", *jam_ground = "#8c2f16",
                     *dropped_ground = "#f4e787";

std::string held_by(const StudyPass &pass)
{
  return pass.held.empty() ? "" : ", " + pass.held;
}

std::string look_closer(const StudyPass &pass)
{
  return doubts(pass).empty() ? "" : ", look closer";
}

/// Of a coupon that stops: by what holds it.
FindingMark stopped(const StudyPass &pass, const char *ground, const char *ink,
                    const std::string &name)
{
  const PassMark mark = pass_mark(pass);
  return {mark.letters, ground, ink,
          name + held_by(pass) + (pass.metal == "beyond" ? ", metal beyond" : "") +
              look_closer(pass),
          mark.rank};
}
} // namespace

FindingMark mark_of(const StudyPass &pass)
{
  const auto [letters, rank] = pass_mark(pass);
  if (!has_finding(pass))
    return {letters, light, dark, "no finding", rank};
  if (pass.outcome == "over-capacity")
    return stopped(pass, capacity_ground, dark, "over capacity");
  if (pass.outcome == "stroke-out")
    return stopped(pass, stroke_ground, dark, "stroke out");
  if (pass.outcome == "jammed")
    return stopped(pass, jam_ground, light, "jammed");
  if (pass.outcome == "dropped")
    return stopped(pass, dropped_ground, dark, "dropped");
  if (pass.metal == "beyond")
    return {letters, beyond_ground, dark, "through, metal beyond" + look_closer(pass),
            rank};
  if (doubts(pass).empty())
    return {letters, sound_ground, dark, "through, sound", rank};
  return {letters, open_ground, dark, "through, look closer", rank};
}

bool find_the_same(const StudyPass &a, const StudyPass &b)
{
  if (!has_finding(a) || !has_finding(b))
    return has_finding(a) == has_finding(b);
  return a.outcome == b.outcome && a.held == b.held &&
         (a.metal == "beyond") == (b.metal == "beyond");
}

std::string finding_words(const StudyPass &pass)
{
  if (pass.accuracy == "broken")
    return "no finding: its figures cannot be relied on";
  if (!has_finding(pass))
    return "undecided: says nothing about the coupon";
  const std::string metal = pass.metal == "within" || pass.metal == "beyond"
                                ? pass.metal + " limits"
                                : "not known";
  std::string       events;
  for (const std::string &event : pass.events)
    events += ", " + event;
  return pass.outcome + held_by(pass) + events + (is_close(pass) ? ", close" : "") +
         "; metal " + metal +
         (pass.accuracy == "sound" ? ""
          : pass.accuracy.empty()  ? "; accuracy not known"
                                   : "; " + pass.accuracy + " accuracy");
}

std::vector<CountedMark> count_marks(const std::vector<StudyPass> &passes)
{
  std::vector<CountedMark> all;
  for (const StudyPass &pass : passes)
  {
    const FindingMark mark = mark_of(pass);
    const auto        found =
        std::find_if(all.begin(), all.end(),
                     [&](const CountedMark &one) { return one.mark.brief == mark.brief; });
    (found == all.end() ? all.emplace_back(CountedMark{mark, 0}) : *found).count += 1;
  }
  std::sort(all.begin(), all.end(),
            [](const CountedMark &a, const CountedMark &b) {
              return std::pair(a.mark.rank, a.mark.brief) <
                     std::pair(b.mark.rank, b.mark.brief);
            });
  return all;
}

std::string paler(const std::string &ground)
{
  const unsigned long value = std::strtoul(ground.c_str() + 1, nullptr, 16);
  const auto          part  = [&](const int shift)
  { return (static_cast<unsigned>(value >> shift & 255) + 2 * 255u) / 3; };
  return fmt::format("#{:02x}{:02x}{:02x}", part(16), part(8), part(0));
}
} // namespace throughbend
