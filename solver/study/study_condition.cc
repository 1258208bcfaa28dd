#include "solver/study/study_condition.h"

#include "inputs/text/input_error.h"
#include "inputs/units/display_units.h"
#include "inputs/units/units.h"
#include "solver/outcome/finding.h"

namespace throughbend
{
namespace
{
double given(const std::string &text, const UnitKind kind, const std::string &whole)
{
  const Quantity quantity = read_quantity(text, kind);
  if (!quantity.ok())
    throw InputError("--until \"" + whole + "\": " + quantity.error);
  if (quantity.value <= 0)
    throw InputError("--until \"" + whole + "\": the bound must be above 0.");
  return quantity.value;
}
} // namespace

std::string condition_words()
{
  return "through, sound, jammed, over-capacity, stroke-out, dropped, metal-within, "
         "force-below 90% (of ram.capacity) or force-below 70kN, stretch-below 25%";
}

StudyCondition::StudyCondition(const std::string &text) : text_(text)
{
  for (const Outcome outcome : {Outcome::through, Outcome::jammed, Outcome::over_capacity,
                                Outcome::stroke_out, Outcome::dropped})
    if (text == to_text(outcome))
    {
      outcome_ = text;
      return;
    }
  const std::size_t blank = text.find(' ');
  const std::string word  = text.substr(0, blank);
  const std::string bound = blank == std::string::npos ? "" : text.substr(blank + 1);
  if (text == "metal-within")
    kind_ = Kind::metal;
  else if (text == "sound")
    kind_ = Kind::sound;
  else if (word == "force-below" && !bound.empty())
  {
    const bool is_share = bound.find('%') != std::string::npos;
    kind_               = is_share ? Kind::force_share : Kind::force;
    most_               = given(bound, is_share ? UnitKind::ratio : UnitKind::force, text);
  }
  else if (word == "stretch-below" && !bound.empty())
  {
    kind_ = Kind::stretch;
    most_ = given(bound, UnitKind::ratio, text);
  }
  else
    throw InputError("--until \"" + text +
                     "\" is not a condition. Conditions: " + condition_words());
}

bool is_sound(const StudyPass &pass)
{
  return pass.outcome == to_text(Outcome::through) && pass.events.empty() &&
         pass.accuracy == to_text(Trust::sound);
}

Meets StudyCondition::judge(const StudyPass &pass) const
{
  if (pass.outcome == to_text(Outcome::undecided) ||
      pass.accuracy == to_text(Trust::broken))
    return Meets::not_known;
  if (kind_ == Kind::outcome)
    return pass.outcome == outcome_ ? Meets::yes : Meets::no;
  if (pass.outcome != to_text(Outcome::through))
    return Meets::no;
  if (kind_ == Kind::sound)
    return is_sound(pass) ? Meets::yes : Meets::no;
  if (kind_ == Kind::metal)
    return pass.metal == "within"   ? Meets::yes
           : pass.metal == "beyond" ? Meets::no
                                    : Meets::not_known;
  const char *name   = kind_ == Kind::stretch       ? "peak_face_elongation"
                       : kind_ == Kind::force_share ? "capacity_margin"
                                                    : "peak_ram_force_N";
  const auto  figure = pass.figures.find(name);
  if (figure == pass.figures.end())
    return Meets::not_known;
  const double value = kind_ == Kind::force_share ? 1 - figure->second : figure->second;
  return value <= most_ ? Meets::yes : Meets::no;
}

std::string StudyCondition::words() const
{
  switch (kind_)
  {
  case Kind::outcome:
    return outcome_;
  case Kind::sound:
    return "through, without an event (such as an ironed leg) and with sound figures";
  case Kind::metal:
    return "through, with the metal within its stated limits";
  case Kind::force_share:
    return "through, with the largest ram force at most " + percent_text(most_) +
           " of ram.capacity";
  case Kind::force:
    return "through, with a largest ram force of at most " +
           force_text(most_, UnitSystem::metric);
  case Kind::stretch:
    break;
  }
  return "through, with the convex face stretched by at most " + percent_text(most_);
}
} // namespace throughbend
