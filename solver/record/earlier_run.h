#pragma once
// What a run leaves in its folder: known again, cleared away, and replaced by a new run. Of
// a folder only what a run has made is deleted, and never a file that is not known. Throws
// what the file system throws but where something else is said.

#include <filesystem>
#include <string>

namespace throughbend
{
/// Name of the folder in which a run is written that is to replace another.
inline constexpr const char *unfinished_folder = "unfinished";

/// Whether a folder holds a run of this program, finished or not.
bool holds_a_run(const std::filesystem::path &folder);

/// Whether nothing is in the folder but the mark of who writes into it, what a run leaves
/// that was killed before it had its first file, and an empty folder of checkpoints that
/// the disk did not let go.
bool is_vacant(const std::filesystem::path &folder);

bool is_link(const std::filesystem::path &path);

/// run.json of a run that has none of its own, by which the folder is known as ours.
std::string bare_record(const std::string &state, const std::string &failure = "");
void        write_bare_record(const std::filesystem::path &run, const std::string &state);

/// `finished`, `running` and the like; empty where run.json is missing or cut off.
std::string recorded_state(const std::filesystem::path &folder);

/// Throws InputError, with the cure, where it cannot be removed.
void remove_file(const std::filesystem::path &file);
void remove_checkpoints(const std::filesystem::path &run);

/// What a killed program was writing aside at the top of the folder.
void clear_asides(const std::filesystem::path &run);

/// All that tells of the run but run.json and case.ini.
void clear_earlier_run(const std::filesystem::path &run);

/// The new run, which is whole in `aside`, in the place of the earlier one: from wherever
/// this was broken off, by the state recorded then.
void replace_run(const std::filesystem::path &place, const std::filesystem::path &aside,
                 const std::string &state);

/// Goes on where a run was broken off that took the place of another.
void finish_replacing(const std::filesystem::path &place);
} // namespace throughbend
