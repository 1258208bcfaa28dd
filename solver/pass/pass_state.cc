#include "solver/pass/pass_state.h"

#include "solver/pass/state_fields.h"

namespace throughbend
{
namespace
{
std::vector<std::pair<std::string, std::string>> parts_of(PassState state)
{
  state.counts.seconds = 0;
  state.work.assembly = state.work.contact = state.work.solution = 0;
  std::vector<std::pair<std::string, std::string>> parts;
  each_part(state,
            [&](const char *name, auto &part)
            {
              StateWriter writer;
              writer(part);
              parts.emplace_back(name, writer.bytes());
            });
  return parts;
}
} // namespace

std::string first_difference(const PassState &a, const PassState &b)
{
  const auto parts = parts_of(a), others = parts_of(b);
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (parts[i].second != others[i].second)
      return parts[i].first;
  return "";
}
} // namespace throughbend
