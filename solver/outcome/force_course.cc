#include "solver/outcome/force_course.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <optional>

namespace throughbend
{
namespace
{
constexpr std::size_t least_aside  = 3;   // samples on either side
constexpr std::size_t least_in_all = 5;   // two more than a parabola has coefficients
constexpr double      far_better   = 0.5; // scatter of a one-sided fit over the centred one
constexpr int         turns_needed = 3;
constexpr double      judged_from  = 0.1;   // of the largest force
constexpr double      least_measure = 0.2;  // of the largest force
constexpr double      rounding      = 1e-4; // of the local mean: no ripple at all

struct Place
{
  double travel = 0, force = 0; ///< [mm], [N]
  double face    = 0;           ///< length of the faces on the tools' rounds [mm]
  int    stretch = 0;           ///< between two jumps
};

/// Longest face on a round of plunger or shoulders; before any touches, or where only flats
/// do, the last one known.
std::vector<Place> places(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  std::vector<Place> all;
  double             last    = setup.coupon.thickness / 4;
  int                stretch = 0;
  for (const PassSample &sample : samples)
  {
    if (sample.kind != StepKind::push)
      ++stretch;
    double face = 0;
    for (const ToolContact &tool : sample.tools)
      if (tool.place.duty != ToolDuty::enclose)
        face = std::max(face, tool.face_over_radius * setup.tool(tool.place).gauge.round);
    last = face > 0 ? face : last;
    all.push_back({sample.travel, sample.ram_force, last, stretch});
  }
  return all;
}

/// Samples first .. last, both included.
struct Window
{
  std::size_t first = 0, last = 0;

  std::size_t size() const { return last - first + 1; }
};

struct Reach
{
  double      length  = 0; ///< of travel [mm]
  std::size_t samples = 0; ///< but at least so many
};

Window window(const std::vector<Place> &all, std::size_t i, Reach back, Reach ahead)
{
  Window      w{i, i};
  const Place here = all[i];
  while (
      w.first > 0 && all[w.first - 1].stretch == here.stretch &&
      (here.travel - all[w.first - 1].travel <= back.length || i - w.first < back.samples))
    --w.first;
  while (
      w.last + 1 < all.size() && all[w.last + 1].stretch == here.stretch &&
      (all[w.last + 1].travel - here.travel <= ahead.length || w.last - i < ahead.samples))
    ++w.last;
  return w;
}

struct Fit
{
  double force   = 0; ///< of the parabola at the sample asked for [N]
  double scatter = 0; ///< mean square departure's root, for the degrees of freedom [N]
  double largest = 0; ///< departure [N]
};

/// Least squares a + b s + d s^2, s = distance from sample i over the window's half length.
std::optional<Fit> fit(const std::vector<Place> &all, std::size_t i, const Window &w)
{
  if (w.size() < least_in_all)
    return std::nullopt;
  const double here = all[i].travel;
  const double half = std::max(here - all[w.first].travel, all[w.last].travel - here);
  if (!(half > 0))
    return std::nullopt;
  std::array<std::array<double, 4>, 3> rows{};
  const auto                           powers = [&](std::size_t k)
  {
    const double s = (all[k].travel - here) / half;
    return std::array<double, 3>{1, s, s * s};
  };
  for (std::size_t k = w.first; k <= w.last; ++k)
  {
    const auto s = powers(k);
    for (int a = 0; a < 3; ++a)
    {
      for (int b = 0; b < 3; ++b)
        rows[a][b] += s[a] * s[b];
      rows[a][3] += s[a] * all[k].force;
    }
  }
  for (int a = 0; a < 3; ++a)
  {
    int pivot = a;
    for (int b = a + 1; b < 3; ++b)
      if (std::abs(rows[b][a]) > std::abs(rows[pivot][a]))
        pivot = b;
    std::swap(rows[a], rows[pivot]);
    if (!(std::abs(rows[a][a]) > 1e-9))
      return std::nullopt;
    for (int b = 0; b < 3; ++b)
      if (b != a)
      {
        const double factor = rows[b][a] / rows[a][a];
        for (int k = a; k < 4; ++k)
          rows[b][k] -= factor * rows[a][k];
      }
  }
  Fit    found;
  double squares = 0;
  for (std::size_t k = w.first; k <= w.last; ++k)
  {
    const auto s      = powers(k);
    double     course = 0;
    for (int a = 0; a < 3; ++a)
      course += rows[a][3] / rows[a][a] * s[a];
    const double departure = all[k].force - course;
    squares += departure * departure;
    found.largest = std::max(found.largest, std::abs(departure));
  }
  found.force   = rows[0][3] / rows[0][0];
  found.scatter = std::sqrt(squares / static_cast<double>(w.size() - 3));
  return found;
}

/// A face's length on either side; where the stretch begins or ends sooner, as much more on
/// the other.
Window centred(const std::vector<Place> &all, std::size_t i)
{
  const Place &here   = all[i];
  Window       w      = window(all, i, {here.face, least_aside}, {here.face, least_aside});
  const bool   begins = w.first == 0 || all[w.first - 1].stretch != here.stretch;
  const bool   ends   = w.last + 1 == all.size() || all[w.last + 1].stretch != here.stretch;
  // What is left of both sides' reach for the longer one.
  const auto rest = [&](std::size_t edge)
  {
    const std::size_t n = edge > i ? edge - i : i - edge;
    return Reach{2 * here.face - std::abs(all[edge].travel - here.travel),
                 n < 2 * least_aside ? 2 * least_aside - n : 0};
  };
  if (begins && !ends)
    w.last = std::max(w.last, window(all, i, {}, rest(w.first)).last);
  if (ends && !begins)
    w.first = std::min(w.first, window(all, i, rest(w.last), {}).first);
  return w;
}

/// The same and half a face's length more at both ends: where it turns near an end of the
/// fit, one must see it come back.
Window widened(const std::vector<Place> &all, std::size_t i, const Window &w)
{
  const Place &here = all[i];
  const double more = here.face / 2;
  return window(all, i, {here.travel - all[w.first].travel + more, i - w.first + 1},
                {all[w.last].travel - here.travel + more, w.last - i + 1});
}

/// How often the force turns in the window, counting only swings of `least` [N] and more.
int turns(const std::vector<Place> &all, const Window &w, double least)
{
  enum class Way
  {
    unknown,
    up,
    down
  };
  Way    way = Way::unknown;
  int    n   = 0;
  double low = all[w.first].force, high = low;
  for (std::size_t k = w.first; k <= w.last; ++k)
  {
    const double force = all[k].force;
    low                = std::min(low, force);
    high               = std::max(high, force);
    if (way != Way::down && force <= high - least)
    {
      n += way == Way::up ? 1 : 0;
      way = Way::down;
      low = force;
    }
    else if (way != Way::up && force >= low + least)
    {
      n += way == Way::down ? 1 : 0;
      way  = Way::up;
      high = force;
    }
  }
  return n;
}

double measure(const Fit &fit, double largest) ///< [N]
{
  return std::max(std::abs(fit.force), least_measure * largest);
}

/// The fit about which the force ripples at sample i; nothing where it does not.
std::optional<Fit> ripple_at(const std::vector<Place> &all, std::size_t i, double largest)
{
  struct Try
  {
    Window window;
    Fit    fit;
    double rank = 0;
  };
  const Reach      long_aside{2 * all[i].face, 2 * least_aside};
  const Window     middle  = centred(all, i);
  const auto       natural = fit(all, i, middle);
  std::vector<Try> tries;
  if (!natural)
    return std::nullopt;
  tries.push_back({middle, *natural, far_better * natural->scatter});
  for (const Window &one_sided :
       {window(all, i, long_aside, {}), window(all, i, {}, long_aside)})
    if (const auto found = fit(all, i, one_sided);
        found && found->scatter < natural->scatter)
      tries.push_back({one_sided, *found, found->scatter});
  std::stable_sort(tries.begin(), tries.end(),
                   [](const Try &a, const Try &b) { return a.rank < b.rank; });
  if (tries.front().fit.largest < rounding * measure(tries.front().fit, largest))
    return std::nullopt;
  for (const Try &tried : tries)
    if (turns(all, widened(all, i, tried.window), tried.fit.largest) >= turns_needed)
      return tried.fit;
  return std::nullopt;
}

/// The sample at which the ram's force ran out; none: a place behind the last.
std::size_t at_capacity(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  std::size_t last = samples.size();
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (samples[i].kind != StepKind::release)
      last = i;
  constexpr double hit = 0.998; // bracketed to 0.1 %
  return last < samples.size() && samples[last].ram_force >= hit * setup.ram.capacity
             ? last
             : samples.size();
}
} // namespace

std::vector<CoursePoint> force_course(const PassSetup               &setup,
                                      const std::vector<PassSample> &samples)
{
  const std::vector<Place> all     = places(setup, samples);
  double                   largest = 0;
  for (const Place &place : all)
    largest = std::max(largest, place.force);

  const std::size_t        stopped_at = at_capacity(setup, samples);
  std::vector<CoursePoint> course;
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const Place &here = all[i];
    course.push_back({here.force, 0, 0});
    if (here.travel <= 2 * here.face || here.force < judged_from * largest ||
        i == stopped_at)
      continue;
    const auto best = ripple_at(all, i, largest);
    if (!best)
      continue;
    CoursePoint &point = course.back();
    point.band         = best->largest;
    point.ripple       = best->largest / measure(*best, largest);
    if (point.ripple >= ripple_to_speak_of)
      point.force = best->force;
  }
  return course;
}

CoursePeak course_peak(const std::vector<PassSample>  &samples,
                       const std::vector<CoursePoint> &course)
{
  assert(course.size() == samples.size() && "the course is of another record");
  CoursePeak peak;
  for (std::size_t i = 0; i < samples.size(); ++i)
    // What is no number stays: a broken figure must show.
    if (!std::isnan(peak.force) && !(course[i].force <= peak.force))
      peak = {course[i].force, samples[i].travel,
              course[i].ripple >= ripple_to_speak_of ? course[i].band : 0.};
  return peak;
}

CoursePeak course_peak(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  return course_peak(samples, force_course(setup, samples));
}

void mark_course(const PassSetup &setup, std::vector<PassSample> &samples)
{
  const std::vector<CoursePoint> course = force_course(setup, samples);
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    samples[i].smooth_force = course[i].force;
    samples[i].ripple       = course[i].ripple;
  }
}
} // namespace throughbend
