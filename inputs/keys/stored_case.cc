#include "inputs/keys/stored_case.h"

#include "inputs/keys/case_entries.h"

#include <algorithm>
#include <array>
#include <filesystem>

namespace throughbend
{
namespace
{
constexpr std::array<std::string_view, 3> keys_of_files = {
    "material.curve", "material.catalogue", "friction.catalogue"};
}

CaseReading stored_case(const std::string_view text, const std::string &name)
{
  CaseReading     refused;
  std::error_code fault;
  for (const CaseEntry &entry : entries_of_text(text, name).entries)
    if (std::find(keys_of_files.begin(), keys_of_files.end(), entry.key) !=
            keys_of_files.end() &&
        std::filesystem::exists(entry.value, fault) &&
        !std::filesystem::is_regular_file(entry.value, fault))
      refused.errors.push_back({entry.place, entry.key, "", "is no regular file",
                                "name one, or remove the key", "", entry.line});
  return refused.errors.empty() ? read_case_text(text, name, {}) : refused;
}
} // namespace throughbend
