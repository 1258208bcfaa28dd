#pragma once
// What our JSON files (RFC 8259) share in being written. Values are those of nlohmann's
// library, only announced here: whoever makes one includes <nlohmann/json.hpp> in a .cc.
// What is read back goes through inputs/text/json_members.

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace throughbend
{
using Json = nlohmann::ordered_json; ///< members stay in the order they were put

/// Null where the text is empty: not known.
Json known(const std::string &text);

/// Indented by two spaces a level, without a line end. Numbers read back exactly, whole
/// ones have no point; NaN and infinity, which JSON has no words for, become null, and
/// bytes that are no UTF-8, as a path may have, U+FFFD.
std::string json_text(const Json &json);
} // namespace throughbend
