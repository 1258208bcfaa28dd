#include "inputs/text/json.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdint>

namespace throughbend
{
namespace
{
/// 10 for 10.0, as far as a double tells every whole number from the next.
void drop_points(Json &json)
{
  constexpr double all_exact = 9007199254740992; // 2^53
  if (json.is_structured())
    for (Json &item : json)
      drop_points(item);
  else if (json.is_number_float())
    if (const double value = json.get<double>();
        std::nearbyint(value) == value && std::abs(value) < all_exact)
      json = static_cast<std::int64_t>(value);
}
} // namespace

Json known(const std::string &text)
{
  return text.empty() ? Json() : Json(text);
}

std::string json_text(const Json &json)
{
  Json plain = json;
  drop_points(plain);
  return plain.dump(2, ' ', false, Json::error_handler_t::replace);
}
} // namespace throughbend
