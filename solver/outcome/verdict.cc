#include "solver/outcome/verdict.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

std::string hold_words(const JamKind kind)
{
  switch (kind)
  {
  case JamKind::squeezed:
    return "squeezed between plunger and shoulder";
  case JamKind::hooked:
    return "hooked on the frame";
  case JamKind::other:
    return "neither squeezed nor hooked";
  }
  throw std::logic_error("there is no such kind of jam");
}

/// " (hooked on the frame, both frame plates)"
std::string hold_and_place(const JamKind kind, const std::string &where)
{
  return " (" + hold_words(kind) + (where.empty() ? "" : ", " + where) + ")";
}

std::string in_capitals(const Outcome outcome)
{
  switch (outcome)
  {
  case Outcome::through:
    return "THROUGH";
  case Outcome::jammed:
    return "JAMMED";
  case Outcome::over_capacity:
    return "OVER CAPACITY";
  case Outcome::stroke_out:
    return "STROKE OUT";
  case Outcome::dropped:
    return "DROPPED";
  case Outcome::undecided:
    return "UNDECIDED";
  }
  throw std::logic_error("there is no such outcome");
}

/// ", leg ironed, frame touched"
std::string event_names(const Finding &finding)
{
  std::string names;
  for (const PassEvent &event : finding.events)
    if (names.find(to_text(event.kind)) == std::string::npos)
      names += ", " + to_text(event.kind);
  return names;
}

void add_force(const BeyondCapacity &beyond, Evidence &text)
{
  text.add(Measure::force, beyond.force);
  if (beyond.force_band > 0)
    text << " +- ", text.add(Measure::force, beyond.force_band);
  if (!beyond.leg_ironed)
    return;
  if (beyond.force_lack > 0)
  {
    text << " (";
    text.add(Measure::force, beyond.force * (1 + beyond.force_lack))
        << " with finer cells)";
  }
  else
    text << " (more with finer cells)";
}

void add_beyond(const BeyondCapacity &beyond, Evidence &text)
{
  switch (beyond.end)
  {
  case BeyondEnd::through:
    text << "; it would go through with ";
    add_force(beyond, text);
    break;
  case BeyondEnd::dropped:
    text << "; with ";
    add_force(beyond, text);
    text << " it would drop unbent";
    break;
  case BeyondEnd::stroke_end:
    text << "; with ";
    add_force(beyond, text);
    text << " the stroke would end before it is through";
    break;
  case BeyondEnd::wrecked:
  case BeyondEnd::not_known:
    text << "; whether more force would push it through is not known";
    break;
  }
}
} // namespace

Evidence verdict(const Finding &finding)
{
  Evidence text;
  text << in_capitals(finding.outcome);
  if (finding.outcome != Outcome::undecided)
    text << event_names(finding);
  if (finding.accuracy.trust == Trust::low)
  {
    text << " (low accuracy: " << finding.accuracy.reasons.front();
    text << (finding.accuracy.reasons.size() > 1 ? ", and more)" : ")");
  }
  if (!finding.close.empty())
    text << " (close: " + finding.close + " could turn it)";
  text << ": ";
  const auto at = [&] { text.add(Measure::length, finding.travel) << " of travel"; };
  switch (finding.outcome)
  {
  case Outcome::through:
    text << "the coupon is bent and clear of the shoulders after ", at();
    break;
  case Outcome::jammed:
    text << "the coupon does not move beyond ", at();
    text << " at any force"
         << hold_and_place(finding.jam.value_or(JamKind::other), finding.where);
    break;
  case Outcome::over_capacity:
    text << "the ram reaches its ";
    text.add(Measure::force, finding.force) << " at ", at();
    if (finding.held)
      text << hold_and_place(*finding.held, finding.where);
    if (finding.beyond)
      add_beyond(*finding.beyond, text);
    break;
  case Outcome::stroke_out:
    text << "the ram's stroke ends at ", at();
    text << " with the coupon not yet through";
    if (finding.held)
      text << hold_and_place(*finding.held, finding.where);
    break;
  case Outcome::dropped:
    if (finding.hangs)
      text << "the coupon tips over and hangs between the shoulders at ", at();
    else
      text << "the coupon leaves the shoulders at ", at();
    text << ", before it is bent to a U";
    break;
  case Outcome::undecided:
    text << "no finding after ", at();
    text << (finding.accuracy.overstrained
                 ? "; the calculated strains are more than metals bear"
                 : "; this says nothing about the coupon");
    break;
  }
  text << ".";
  return text;
}
} // namespace throughbend
