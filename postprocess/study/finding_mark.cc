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

std::string events_of(const StudyPass &pass)
{
  std::string words;
  for (const std::string &event : pass.events)
    words += ", " + event;
  return words;
}

/// Whether the ripple of the computed force could turn the finding.
bool is_close(const StudyPass &pass)
{
  return pass.verdict.find(" (close: ") != std::string::npos;
}

std::string held_by(const StudyPass &pass)
{
  return pass.held.empty() ? "" : ", " + pass.held;
}

/// Of a coupon that stops: by what holds it.
FindingMark stopped(const StudyPass &pass, const char *letter, const char *ground,
                    const char *ink, const std::string &name, const int rank)
{
  const bool        hooked = pass.held == "hooked", squeezed = pass.held == "squeezed";
  const std::string letters = hooked ? "H" : squeezed ? "S" : letter;
  const bool        beyond  = pass.metal == "beyond";
  return {letters + (beyond ? "!" : ""), ground, ink,
          name + held_by(pass) + (beyond ? ", metal beyond" : ""), rank};
}
} // namespace

FindingMark mark_of(const StudyPass &pass)
{
  if (!has_finding(pass))
    return {"?", light, dark, "no finding", 9};
  const bool beyond = pass.metal == "beyond";
  if (pass.outcome == "over-capacity")
    return stopped(pass, "C", capacity_ground, dark, "over capacity", 4);
  if (pass.outcome == "stroke-out")
    return stopped(pass, "E", stroke_ground, dark, "stroke out", 5);
  if (pass.outcome == "jammed")
    return stopped(pass, "J", jam_ground, light, "jammed", 6);
  if (pass.outcome == "dropped")
    return stopped(pass, "D", dropped_ground, dark, "dropped", 7);
  if (beyond)
    return {"T!", beyond_ground, dark, "through, metal beyond", 3};
  if (pass.metal == "within" && pass.accuracy == "sound" && events_of(pass).empty() &&
      !is_close(pass))
    return {"T", sound_ground, dark, "through, sound", 1};
  return {"T*", open_ground, dark, "through, look closer", 2};
}

bool has_finding(const StudyPass &pass)
{
  if (pass.accuracy == "broken")
    return false;
  const char *const known[] = {"through", "over-capacity", "stroke-out", "jammed",
                               "dropped"};
  return std::find(std::begin(known), std::end(known), pass.outcome) != std::end(known);
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
  return pass.outcome + held_by(pass) + events_of(pass) +
         (is_close(pass) ? ", close" : "") + "; metal " + metal +
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
