// The words for what a pass records: one spelling for screen, tables and run.json alike.

#include "solver/outcome/finding.h"
#include "solver/outcome/pass_sample.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
[[noreturn]] void no_such(const char *what)
{
  throw std::logic_error(std::string("there is no such ") + what);
}
} // namespace

std::string to_text(const Outcome outcome)
{
  switch (outcome)
  {
  case Outcome::through:
    return "through";
  case Outcome::jammed:
    return "jammed";
  case Outcome::over_capacity:
    return "over-capacity";
  case Outcome::stroke_out:
    return "stroke-out";
  case Outcome::dropped:
    return "dropped";
  case Outcome::undecided:
    return "undecided";
  }
  no_such("outcome");
}

std::string to_text(const JamKind kind)
{
  switch (kind)
  {
  case JamKind::squeezed:
    return "squeezed";
  case JamKind::hooked:
    return "hooked";
  case JamKind::other:
    return "other";
  }
  no_such("kind of jam");
}

std::string to_text(const BeyondEnd end)
{
  switch (end)
  {
  case BeyondEnd::through:
    return "through";
  case BeyondEnd::dropped:
    return "dropped";
  case BeyondEnd::stroke_end:
    return "stroke-out";
  case BeyondEnd::wrecked:
    return "jammed";
  case BeyondEnd::not_known:
    return "not known";
  }
  no_such("end");
}

std::string to_text(const EventKind kind)
{
  switch (kind)
  {
  case EventKind::frame_touched:
    return "frame touched";
  case EventKind::ironed:
    return "leg ironed";
  case EventKind::nose_corner:
    return "nose corner";
  case EventKind::bent_short:
    return "bent short";
  case EventKind::shoulder_underside:
    return "shoulder underside";
  }
  no_such("kind of event");
}

std::vector<ToolContact> untouched_tools()
{
  std::vector<ToolContact> tools(tool_list().size());
  for (std::size_t i = 0; i < tools.size(); ++i)
    tools[i].place = tool_list()[i].place;
  return tools;
}

std::string to_text(const StepKind kind)
{
  switch (kind)
  {
  case StepKind::push:
    return "push";
  case StepKind::relax:
    return "relax";
  case StepKind::release:
    return "release";
  }
  no_such("kind of step");
}
} // namespace throughbend
