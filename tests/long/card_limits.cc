// The limits of five bench cards, pushed on both sides. Just inside, a coupon goes through
// as a sound pass goes; past a limit by as much again as its margin, it does not: it
// irons a leg, touches the frame, is bent short or drops, or the ram stops. Limits that a
// rule or the knowledge of a metal sets say nothing of the pass: there check's or the
// card's own words must refuse what is beyond.
//
//   card_limits CASE.ini ... [--into TABLE.md]
//
// Exit status 1 when a limit does not hold.

#include "inputs/keys/case_reader.h"
#include "meshes/setup/fixture_profiles.h"
#include "solver/limits/case_limits.h"
#include "solver/outcome/pass_event.h"
#include "solver/pass/pass_simulation.h"
#include "solver/screening/margins.h"
#include "solver/setup/set_up.h"

#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string>

namespace
{
using namespace throughbend;

struct Tried
{
  bool        sound = false; ///< through, and nothing that a sound pass doesn't have
  std::string words;
};

Tried push(Case c)
{
  c.mesh.level = MeshLevel::quick;
  PassSimulation<2> simulation(set_up(c), MPI_COMM_SELF);
  simulation.stop_at_capacity();
  const Finding finding = simulation.run();
  Tried         tried;
  tried.words = to_text(finding.outcome);
  for (const PassEvent &event : finding.events)
    tried.words += ", " + to_text(event.kind);
  tried.sound = finding.outcome == Outcome::through && finding.events.empty();
  if (finding.outcome == Outcome::dropped || finding.outcome == Outcome::through)
  {
    char legs[60];
    std::snprintf(legs, sizeof legs, ", legs %.0f / %.0f deg",
                  simulation.samples().back().left.angle,
                  simulation.samples().back().right.angle);
    tried.words += legs;
  }
  return tried;
}

class Table
{
public:
  explicit Table(std::string fixture) : fixture_(std::move(fixture)) {}

  void row(const std::string &limit, const double inside, const Tried &in,
           const double beyond, const Tried &out)
  {
    const bool holds = in.sound && !out.sound;
    char       text[500];
    std::snprintf(text, sizeof text, "| %s | %s | %.2f | %s | %.2f | %s | %s |\n",
                  fixture_.c_str(), limit.c_str(), inside, in.words.c_str(), beyond,
                  out.words.c_str(), holds ? "yes" : "NO");
    std::printf("%s", text);
    std::fflush(stdout);
    text_ += text;
    broken_ += holds ? 0 : 1;
  }
  const std::string &text() const { return text_; }
  int                broken() const { return broken_; }

private:
  std::string fixture_, text_;
  int         broken_ = 0;
};

double lower_peak(const Case &c)
{
  return force_band(c).peak.force.low;
}

/// The least value from which something holds.
template <class Holds>
double least_that(double low, double high, const Holds &holds)
{
  return *largest_that(low, high, [&](const double x) { return !holds(x); });
}

Case with_length(Case c, const double length)
{
  c.coupon.length = length;
  return c;
}

Case stronger(Case c, const double factor)
{
  c.material.flow = c.material.flow.scaled(factor);
  return c;
}

Case with_ram(Case c, const double capacity, const double stroke)
{
  c.ram.capacity = capacity;
  c.ram.stroke   = stroke;
  return c;
}

bool names(const Bound &bound, const char *words)
{
  return bound.by.find(words) != std::string::npos;
}

void thickness_rows(const Case &c, const CaseLimits &limits, Table &table)
{
  const Tried  in   = push(limits.extreme);
  const double room = (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
  for (const Bound &bound : limits.thickest.all)
  {
    if (names(bound, "room beside"))
    {
      // Its own inside, if something else decides.
      const Case   at  = with_thickness(limits.extreme, bound.value);
      const Case   any = with_ram(at, 1e9, c.ram.stroke);
      const double t   = room / (1 - margins::clearance_share);
      table.row("thickness [mm], room", bound.value, push(any), t,
                push(with_ram(with_thickness(any, t), 1e9, c.ram.stroke)));
    }
    else if (names(bound, "force of the ram"))
    {
      const double t =
          least_that(bound.value, room,
                     [&](const double thickness)
                     {
                       return lower_peak(with_thickness(limits.extreme, thickness)) >
                              (2 - margins::rating_share) * c.ram.capacity;
                     });
      table.row("thickness [mm], ram", bound.value, in, t,
                push(with_thickness(limits.extreme, t)));
    }
    else if (names(bound, "rule"))
    {
      const double t     = 1.1 * bound.value; // 3/8 in is 10 mm
      const Case   thick = with_thickness(c, t);
      const auto   rule  = compare_with_rule(built_in_rules(), c.fixture.rule, thick);
      table.row("thickness [mm], rule", bound.value, in, t,
                {rule.worst() == Agreement::ok, "check: " + to_text(rule.worst())});
    }
  }
}

void length_rows(const Case &c, const CaseLimits &limits, Table &table)
{
  const double t  = limits.extreme.coupon.thickness;
  const Case  &at = limits.extreme;
  for (const Bound &bound : limits.longest.all)
  {
    const Case long_stroke = with_ram(at, c.ram.capacity, 3000);
    if (names(bound, "frame"))
    {
      const double beyond = bound.value + 4 * margins::laid_by_eye * t;
      table.row("length [mm], frame", bound.value,
                push(with_length(long_stroke, bound.value)), beyond,
                push(with_length(long_stroke, beyond)));
    }
    else if (names(bound, "stroke"))
    {
      const double beyond = least_that(
          bound.value, 3000,
          [&](const double length)
          {
            for (const ScreenSection &section : screen(with_length(at, length)).sections)
              for (const ScreenLine &line : section.lines)
                if (line.key == "stroke_needed")
                  return *line.low > (2 - margins::rating_share) * c.ram.stroke;
            return true;
          });
      table.row("length [mm], stroke", bound.value, push(with_length(at, bound.value)),
                beyond, push(with_length(at, beyond)));
    }
  }
  Case shortest          = with_length(at, limits.shortest.value);
  shortest.coupon.offset = c.coupon.offset + margins::laid_by_eye * t;
  // Straight legs need more than curved ones do, so that this limit is far on the safe
  // side.
  const double beyond    = 0.7 * limits.shortest.value;
  Case         too_short = with_length(shortest, beyond);
  table.row("length [mm], support", limits.shortest.value, push(shortest), beyond,
            push(too_short));
}

void strength_rows(const Case &c, const CaseLimits &limits, Table &table)
{
  const double yield = c.material.flow.initial_stress();
  for (const Bound &bound : limits.strongest.all)
    if (names(bound, "force of the ram"))
    {
      const double factor =
          least_that(bound.value / yield, 50,
                     [&](const double k)
                     {
                       return lower_peak(stronger(limits.extreme, k)) >
                              (2 - margins::rating_share) * c.ram.capacity;
                     });
      table.row("yield [MPa], ram", bound.value,
                push(stronger(limits.extreme, bound.value / yield)), factor * yield,
                push(stronger(limits.extreme, factor)));
    }
}

void ram_rows(const Case &c, const CaseLimits &limits, Table &table)
{
  const double enough = limits.force.value, stroke = limits.stroke.value;
  const double weak = lower_peak(limits.extreme) / (2 - margins::rating_share);
  table.row("ram force [kN]", enough / 1e3,
            push(with_ram(limits.extreme, enough, c.ram.stroke)), weak / 1e3,
            push(with_ram(limits.extreme, weak, c.ram.stroke)));
  // Of the need as it is: 90 % of the stroke that is asked for, less a tenth.
  const double short_stroke = 0.9 * stroke * 0.9 / (2 - margins::rating_share);
  table.row("ram stroke [mm]", stroke,
            push(with_ram(limits.extreme, c.ram.capacity, stroke)), short_stroke,
            push(with_ram(limits.extreme, c.ram.capacity, short_stroke)));
}
} // namespace

int main(int argc, char **argv)
{
  dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  std::string                              table_file, text =
                              "| fixture | limit | inside | pass | beyond | pass | holds "
                              "|\n|--|--|--|--|--|--|--|\n";
  int broken = 0;
  for (int i = 1; i < argc; ++i)
  {
    if (std::strcmp(argv[i], "--into") == 0 && i + 1 < argc)
    {
      table_file = argv[++i];
      continue;
    }
    const CaseReading reading = read_case(argv[i], {});
    if (!reading.value)
    {
      std::fprintf(stderr, "%s", error_list(reading.errors).c_str());
      return 2;
    }
    const Case      &c      = *reading.value;
    const CaseLimits limits = case_limits(c);
    Table            table(std::filesystem::path(argv[i]).stem().string());
    thickness_rows(c, limits, table);
    length_rows(c, limits, table);
    strength_rows(c, limits, table);
    ram_rows(c, limits, table);
    text += table.text();
    broken += table.broken();
  }
  std::printf("%d limits do not hold\n", broken);
  if (!table_file.empty())
    std::ofstream(table_file) << text;
  return broken > 0 ? 1 : 0;
}
