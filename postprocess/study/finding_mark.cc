#include "postprocess/study/finding_mark.h"

#include <algorithm>

namespace throughbend
{
namespace
{
struct MarkLook
{
  FindingMark mark;
  const char *letter, *colour, *ink, *name, *brief;
};

// Grounds made from the colours of Okabe & Ito (2008), "Color Universal Design", and of
// different lightness; a jam is the darkest.
constexpr const char *dark    = "#1a2028";
const MarkLook        looks[] = {
           {FindingMark::sound, "T", "#8fd1b5", dark, "through, metal within its limits",
            "through"},
           {FindingMark::open, "t", "#dcf0e7", dark,
            "through, but not all is known or as it should be", "through, look"},
           {FindingMark::metal_beyond, "M", "#cf96bd", dark, "through, metal beyond its limits",
            "metal beyond"},
           {FindingMark::over_capacity, "C", "#f0a44b", dark, "over the ram's capacity",
            "over capacity"},
           {FindingMark::stroke_out, "S", "#86bbe6", dark, "the ram's stroke ran out",
            "stroke out"},
           {FindingMark::jammed, "J", "#8c2f16", "#ffffff", "jammed", "jammed"},
           {FindingMark::dropped, "D", "#f4e787", dark, "dropped before it was bent to a U",
            "dropped"},
           {FindingMark::none, "?", "#ffffff", dark,
            "without a finding, which says nothing about the coupon", "no finding"}};

/// Whether the pass has something that a sound one does not: run.json lists it as events,
/// whose numbers are among the figures.
bool has_events(const StudyPass &pass)
{
  const std::string head = "finding.events.";
  const auto        at   = pass.figures.lower_bound(head);
  return at != pass.figures.end() && at->first.rfind(head, 0) == 0;
}

const MarkLook &look_of(const FindingMark mark)
{
  return *std::find_if(std::begin(looks), std::end(looks),
                       [&](const MarkLook &look) { return look.mark == mark; });
}
} // namespace

const std::vector<FindingMark> &finding_marks()
{
  static const std::vector<FindingMark> marks = []
  {
    std::vector<FindingMark> all;
    for (const MarkLook &look : looks)
      all.push_back(look.mark);
    return all;
  }();
  return marks;
}

FindingMark mark_of(const StudyPass &pass)
{
  if (pass.accuracy == "broken")
    return FindingMark::none;
  if (pass.outcome == "over-capacity")
    return FindingMark::over_capacity;
  if (pass.outcome == "stroke-out")
    return FindingMark::stroke_out;
  if (pass.outcome == "jammed")
    return FindingMark::jammed;
  if (pass.outcome == "dropped")
    return FindingMark::dropped;
  if (pass.outcome != "through")
    return FindingMark::none;
  if (pass.metal == "beyond")
    return FindingMark::metal_beyond;
  return pass.metal == "within" && pass.accuracy == "sound" && !has_events(pass)
             ? FindingMark::sound
             : FindingMark::open;
}

bool has_finding(const StudyPass &pass)
{
  return mark_of(pass) != FindingMark::none;
}

std::string letter_of(const FindingMark mark)
{
  return look_of(mark).letter;
}

std::string colour_of(const FindingMark mark)
{
  return look_of(mark).colour;
}

std::string ink_of(const FindingMark mark)
{
  return look_of(mark).ink;
}

std::string name_of(const FindingMark mark)
{
  return look_of(mark).name;
}

std::string brief_name_of(const FindingMark mark)
{
  return look_of(mark).brief;
}

std::string finding_words(const StudyPass &pass)
{
  if (pass.outcome.empty() || pass.outcome == "undecided")
    return "undecided: says nothing about the coupon";
  if (pass.accuracy == "broken")
    return "no finding: the record contradicts itself";
  const std::string metal = pass.metal == "within" || pass.metal == "beyond"
                                ? pass.metal + " limits"
                                : "not known";
  return pass.outcome + (has_events(pass) ? ", not as a sound pass goes" : "") +
         "; metal " + metal +
         (pass.accuracy == "sound" ? ""
          : pass.accuracy.empty()  ? "; accuracy not known"
                                   : "; " + pass.accuracy + " accuracy");
}

std::vector<std::size_t> count_marks(const std::vector<StudyPass> &passes)
{
  const auto              &marks = finding_marks();
  std::vector<std::size_t> counts(marks.size(), 0);
  for (const StudyPass &pass : passes)
    ++counts[static_cast<std::size_t>(std::find(marks.begin(), marks.end(), mark_of(pass)) -
                                      marks.begin())];
  return counts;
}
} // namespace throughbend
