#include "solver/study/study_store.h"

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "inputs/text/whole_file.h"
#include "solver/study/file/study_pass_text.h"

#include <nlohmann/json.hpp>

#include <cerrno>
#include <utility>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

fs::path made_folder(const fs::path &folder)
{
  std::error_code fault;
  fs::create_directories(folder, fault);
  if (!fs::is_directory(folder))
    throw_place_fault("the folder " + folder.string() + " cannot be made" +
                          (fault ? ": " + fault.message() : "") +
                          ". Choose another with --out.",
                      fault ? fault.value() : ENOTDIR);
  return folder;
}

std::string hash_of(const std::string &from)
{
  return fnv1a_hex(from) + fnv1a_hex("throughbend" + from);
}
} // namespace

std::string made_from(const Case &c, const PassOrigin &origin)
{
  std::string lines = "program=" + origin.program + "\nat_capacity=" +
                      (origin.at_capacity == AtCapacity::stop ? "stop" : "go on") + "\n";
  for (const auto &[key, value] : case_values(c))
    if (key != "solver.checkpoint_every" && key.rfind("case.", 0) != 0)
      lines += key + "=" + value + "\n";
  return lines;
}

StudyStore::StudyStore(const fs::path &folder, PassOrigin origin)
    : database_(made_folder(folder) / study_file_name, StudyAccess::write),
      origin_(std::move(origin))
{
}

StudyStore::Reusable StudyStore::reuse(const fs::path &folder)
{
  others_.emplace_back(folder / study_file_name, StudyAccess::read);
  const std::string program = "program=" + origin_.program + "\n";
  Reusable          found;
  for (StudyStatement row = others_.back()("SELECT made_from FROM pass"); row.next();)
    ++(row.text(0).rfind(program, 0) == 0 ? found.fitting : found.others);
  return found;
}

std::optional<StudyRequest> StudyStore::earlier() const
{
  StudyRequest request;
  bool         is_there = false;
  for (StudyStatement row = database_("SELECT name, value FROM study"); row.next();)
  {
    const std::string name = row.text(0), value = row.text(1);
    if (name == "kind")
    {
      is_there = true;
      for (const StudyKind kind :
           {StudyKind::limit, StudyKind::map, StudyKind::spread, StudyKind::choice})
        if (to_text(kind) == value)
          request.kind = kind;
    }
    if (name == "title")
      request.title = value;
    if (name == "case")
      request.case_text = value;
    if (name == "words")
      request.words = value;
  }
  return is_there ? std::optional(request) : std::nullopt;
}

void StudyStore::begin(const StudyRequest &request)
{
  database_.at_once(
      [&]
      {
        database_("DELETE FROM place").run();
        database_("DELETE FROM study").run();
        note("kind", to_text(request.kind));
        note("title", request.title);
        note("case", request.case_text);
        note("keys", keys_text(request.keys));
        note("words", request.words);
        note("whole", "no");
        note("planned", "0");
      });
}

std::optional<StudyPass> StudyStore::find_in(const StudyDatabase &database,
                                             const std::string   &from)
{
  StudyStatement row = database("SELECT made_from, record FROM pass WHERE hash = ?");
  row << hash_of(from);
  // The text itself is compared: two texts of one hash are still two passes.
  if (!row.next() || row.text(0) != from)
    return std::nullopt;
  return pass_of_text(row.text(1));
}

std::optional<StudyPass> StudyStore::find(const Case &c)
{
  const std::string from = made_from(c, origin_);
  if (std::optional<StudyPass> own = find_in(database_, from))
    return own;
  for (const StudyDatabase &other : others_)
    if (std::optional<StudyPass> found = find_in(other, from))
      return found;
  return std::nullopt;
}

void StudyStore::keep(const Case &c, const StudyPass &pass, const std::size_t number)
{
  const std::string from = made_from(c, origin_), hash = hash_of(from);
  database_.at_once(
      [&]
      {
        StudyStatement row = database_("INSERT OR IGNORE INTO pass VALUES (?, ?, ?, ?)");
        row << hash << from << pass.outcome << pass_text(pass);
        row.run();
        put_place(hash, pass, number);
      });
}

void StudyStore::place(const Case &c, const StudyPass &pass, const std::size_t number)
{
  keep(c, pass, number); // it may have come from another study's file
}

void StudyStore::put_place(const std::string &hash, const StudyPass &pass,
                           const std::size_t number)
{
  StudyStatement row = database_("INSERT OR REPLACE INTO place VALUES (?, ?, ?, ?)");
  row << static_cast<long long>(number) << hash << numbers_text(pass.values)
      << Json(pass.words).dump();
  row.run();
}

void StudyStore::note(const std::string &name, const std::string &value)
{
  StudyStatement row = database_("INSERT OR REPLACE INTO study VALUES (?, ?)");
  row << name << value;
  row.run();
}

void StudyStore::plan(const std::size_t planned)
{
  note("planned", std::to_string(planned));
}

void StudyStore::answer(const std::string &answers)
{
  note("answers", answers);
}

void StudyStore::end(const bool whole)
{
  note("whole", whole ? "yes" : "no");
}
} // namespace throughbend
