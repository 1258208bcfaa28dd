#include "solver/study/file/pass_mark.h"

#include <algorithm>

namespace throughbend
{
namespace
{
/// A finding with its letter, in the order in which they ask to be looked at.
struct Letter
{
  const char *outcome, *letter;
  int         rank;
};
constexpr Letter stops[] = {{"over-capacity", "C", 4},
                            {"stroke-out", "E", 5},
                            {"jammed", "J", 6},
                            {"dropped", "D", 7}};
} // namespace

bool has_finding(const StudyPass &pass)
{
  const auto is_outcome = [&](const Letter &stop) { return pass.outcome == stop.outcome; };
  return pass.accuracy != "broken" &&
         (pass.outcome == "through" ||
          std::any_of(std::begin(stops), std::end(stops), is_outcome));
}

bool is_close(const StudyPass &pass)
{
  return pass.verdict.find(" (close: ") != std::string::npos;
}

std::vector<std::string> doubts(const StudyPass &pass)
{
  const bool               through = pass.outcome == "through";
  std::vector<std::string> all     = through ? pass.events : std::vector<std::string>();
  if (is_close(pass))
    all.emplace_back("close");
  if (through && pass.metal != "within" && pass.metal != "beyond")
    all.emplace_back("metal not known");
  if (pass.accuracy != "sound")
    all.push_back(pass.accuracy.empty() ? "accuracy not known"
                                        : pass.accuracy + " accuracy");
  return all;
}

PassMark pass_mark(const StudyPass &pass)
{
  if (!has_finding(pass))
    return {"?", 9};
  const std::string more = pass.metal == "beyond" ? "!" : doubts(pass).empty() ? "" : "*";
  for (const Letter &stop : stops)
    if (pass.outcome == stop.outcome)
    {
      // What holds it, where the ram has given all; at the end of the stroke the stroke's
      // own letter goes first.
      const bool by_force = pass.outcome != "stroke-out";
      return {(by_force && pass.held == "hooked"     ? "H"
               : by_force && pass.held == "squeezed" ? "S"
                                                     : stop.letter) +
                  more,
              stop.rank};
    }
  return {"T" + more, more == "!" ? 3 : more == "*" ? 2 : 1};
}
} // namespace throughbend
