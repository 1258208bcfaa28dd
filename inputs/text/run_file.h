#pragma once
// The one place that opens what lies in the folder of a run: somebody else may have made
// that folder. Regular files only, of a size that a run can have, and through no link, for
// a link leads out of the run and its target's text would stand on a page. What is in the
// text is the business of those who ask.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace throughbend
{
/// Largest sizes [bytes]: some hundred times those of a long run.
namespace run_file_size
{
constexpr std::uintmax_t summary = 16u << 20u;  ///< run.json; a run writes some 30 000
constexpr std::uintmax_t given   = 1u << 20u;   ///< case.ini
constexpr std::uintmax_t table   = 64u << 20u;  ///< travel.csv and others
constexpr std::uintmax_t index   = 16u << 20u;  ///< .pvd
constexpr std::uintmax_t shape   = 256u << 20u; ///< .vtu, .vtp
} // namespace run_file_size

/// The text of a file by its name in the folder, `fields/fields.pvd` say; nothing where it
/// is not there. The folder itself may be named through links. Throws InputError with file
/// and cure for a link in it, what is no regular file (a FIFO or device is not waited for),
/// what the user may not read, more bytes than `most`, and a name that leads out of the
/// folder; std::runtime_error where the machine does not open it, a broken disk say.
std::optional<std::string> run_file_text(const std::filesystem::path &folder,
                                         const std::filesystem::path &name,
                                         std::uintmax_t               most);
} // namespace throughbend
