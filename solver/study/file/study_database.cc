#include "solver/study/file/study_database.h"

#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"

#include <sqlite3.h>

#include <cerrno>
#include <stdexcept>
#include <system_error>

namespace throughbend
{
namespace
{
constexpr long long our_mark     = 0x74627374; // tbst: application_id of our files
constexpr long long our_version  = 1;          // of the tables
constexpr int       patience     = 60000;      // [ms] for a second writer
constexpr int       longest_text = 64 << 20;   // [bytes] of what is kept of a pass

/// Why nothing can be written beside the file, or `otherwise`: SQLite keeps the reason of
/// its last attempt, which may have been another one.
int reason_there(const std::string &file, const int otherwise)
{
  try
  {
    constexpr std::size_t little = 4096;
    const ReservedFile    room(file, little);
    return otherwise;
  }
  catch (const WriteError &fault)
  {
    return fault.reason;
  }
}

[[noreturn]] void fail(sqlite3 *database, const std::string &file)
{
  const int         code = database == nullptr ? SQLITE_NOMEM : sqlite3_errcode(database);
  const std::string why =
      database == nullptr ? "no memory" : std::string(sqlite3_errmsg(database));
  const bool opening = (code & 0xff) == SQLITE_CANTOPEN;
  const int  last    = database == nullptr ? 0 : sqlite3_system_errno(database);
  // The last attempt is one to read a journal, which is not there where none can be made.
  const bool        misled = opening && last == ENOENT;
  const int         reason = opening ? reason_there(file, misled ? EAGAIN : last) : last;
  const std::string given =
      why +
      (reason == EAGAIN
           ? " (its journal could not be made, and now could: try again)"
           : (reason == 0 ? "" : " (" + std::generic_category().message(reason) + ")"));
  switch (code & 0xff)
  {
  case SQLITE_FULL:
    throw std::runtime_error("the disk is full: " + file +
                             " cannot be extended. What was stored before is complete.");
  case SQLITE_NOTADB:
  case SQLITE_CORRUPT:
  case SQLITE_ERROR: // tables or columns are missing
  case SQLITE_MISMATCH:
  case SQLITE_TOOBIG:
    throw InputError(file + " is not the file of a study, or is broken: " + why +
                     ". Choose another folder, or remove the file.");
  case SQLITE_BUSY:
    throw std::runtime_error(file + " is held by another program for longer than a minute");
  case SQLITE_READONLY:
  case SQLITE_CANTOPEN:
  case SQLITE_PERM:
    if (reason != 0 && !is_of_the_place(reason))
      throw std::runtime_error(file + " cannot be opened for writing: " + given);
    throw InputError(file + " cannot be opened for writing: " + given);
  default:
    throw std::runtime_error("cannot work with " + file + ": " + given);
  }
}
} // namespace

void StudyStatement::Close::operator()(sqlite3_stmt *const statement) const
{
  sqlite3_finalize(statement);
}

StudyStatement::StudyStatement(sqlite3 *const database, const std::string &sql,
                               const std::string &file)
    : database_(database), file_(file)
{
  sqlite3_stmt *statement = nullptr;
  const int     code = sqlite3_prepare_v2(database, sql.c_str(), -1, &statement, nullptr);
  statement_.reset(statement);
  if (code != SQLITE_OK)
    fail(database_, file_);
}

StudyStatement &StudyStatement::operator<<(const std::string &text)
{
  if (sqlite3_bind_text64(statement_.get(), ++bound_, text.data(), text.size(),
                          SQLITE_TRANSIENT, SQLITE_UTF8) != SQLITE_OK)
    fail(database_, file_);
  return *this;
}

StudyStatement &StudyStatement::operator<<(const double number)
{
  if (sqlite3_bind_double(statement_.get(), ++bound_, number) != SQLITE_OK)
    fail(database_, file_);
  return *this;
}

StudyStatement &StudyStatement::operator<<(const long long number)
{
  if (sqlite3_bind_int64(statement_.get(), ++bound_, number) != SQLITE_OK)
    fail(database_, file_);
  return *this;
}

bool StudyStatement::next()
{
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW)
    return true;
  if (code != SQLITE_DONE)
    fail(database_, file_);
  return false;
}

void StudyStatement::run()
{
  while (next())
  {
  }
}

std::string StudyStatement::text(const int column) const
{
  const unsigned char *const bytes = sqlite3_column_text(statement_.get(), column);
  const int                  size  = sqlite3_column_bytes(statement_.get(), column);
  return bytes == nullptr ? std::string()
                          : std::string(reinterpret_cast<const char *>(bytes),
                                        static_cast<std::size_t>(size));
}

double StudyStatement::number(const int column) const
{
  return sqlite3_column_double(statement_.get(), column);
}

long long StudyStatement::whole(const int column) const
{
  return sqlite3_column_int64(statement_.get(), column);
}

void StudyDatabase::Close::operator()(sqlite3 *const database) const
{
  sqlite3_close(database);
}

StudyDatabase::StudyDatabase(const std::filesystem::path &file, const StudyAccess access)
    : file_(file.string())
{
  std::error_code none;
  if (access == StudyAccess::read && !std::filesystem::is_regular_file(file, none))
    throw InputError("there is no study in " + file.parent_path().string() + ": no file " +
                     file.filename().string());
  if (std::filesystem::is_symlink(std::filesystem::symlink_status(file, none)))
    throw InputError(file_ + " is a link, and a study needs a file. Replace the link by "
                             "its target, or remove it.");
  // A reader, too, may have to undo what a writer that was killed had begun.
  const int flags =
      SQLITE_OPEN_READWRITE | (access == StudyAccess::write ? SQLITE_OPEN_CREATE : 0);
  sqlite3  *database = nullptr;
  const int code     = sqlite3_open_v2(file_.c_str(), &database, flags, nullptr);
  database_.reset(database);
  if (code != SQLITE_OK)
    fail(database, file_);
  sqlite3_extended_result_codes(database, 0);
  sqlite3_busy_timeout(database, patience);
  sqlite3_limit(database, SQLITE_LIMIT_LENGTH, longest_text);
  sqlite3_db_config(database, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(database, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  check_kind();
  if (access == StudyAccess::read)
  {
    StudyStatement tables = (*this)("SELECT count(*) FROM sqlite_master");
    tables.next();
    if (tables.whole(0) == 0)
      throw InputError(file_ + " holds no study: one was started there and stored "
                               "nothing. Give its command again.");
  }
  if (access == StudyAccess::write)
  {
    // A rollback journal, written through: one file, whole after a power cut.
    (*this)("PRAGMA journal_mode = DELETE").run();
    (*this)("PRAGMA synchronous = EXTRA").run(); // the journal's end, too
    make_tables();
  }
}

StudyStatement StudyDatabase::operator()(const std::string &sql) const
{
  return {database_.get(), sql, file_};
}

void StudyDatabase::roll_back() noexcept
{
  sqlite3_exec(database_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

/// Refuses what is another program's, or a later version's.
void StudyDatabase::check_kind()
{
  const auto asked = [&](const char *sql)
  {
    StudyStatement statement = (*this)(sql);
    statement.next();
    return statement.whole(0);
  };
  // A view or trigger in the place of a table may compute for ever.
  if (asked("SELECT count(*) FROM sqlite_master WHERE type NOT IN ('table', 'index')") > 0)
    throw InputError(file_ +
                     " is not the file of a throughbend study. Choose another folder, "
                     "or remove the file.");
  const long long mark = asked("PRAGMA application_id");
  if (mark == 0 && asked("SELECT count(*) FROM sqlite_master") == 0)
    return; // new, or killed before its tables were made
  if (mark != our_mark)
    throw InputError(file_ + " is not the file of a throughbend study. Choose another "
                             "folder, or remove the file.");
  if (const long long version = asked("PRAGMA user_version"); version > our_version)
    throw InputError(file_ + " was written by a later throughbend (tables of version " +
                     std::to_string(version) + ").");
}

void StudyDatabase::make_tables()
{
  at_once(
      [&]
      {
        for (const std::string &sql :
             {"PRAGMA application_id = " + std::to_string(our_mark),
              "PRAGMA user_version = " + std::to_string(our_version),
              std::string("CREATE TABLE IF NOT EXISTS study (name TEXT PRIMARY KEY, "
                          "value TEXT NOT NULL)"),
              std::string("CREATE TABLE IF NOT EXISTS pass (hash TEXT PRIMARY KEY, "
                          "made_from TEXT NOT NULL, outcome TEXT NOT NULL, "
                          "record TEXT NOT NULL)"),
              std::string("CREATE TABLE IF NOT EXISTS place (number INTEGER PRIMARY KEY, "
                          "hash TEXT NOT NULL, vals TEXT NOT NULL, words TEXT NOT NULL)")})
          (*this)(sql).run();
      });
}
} // namespace throughbend
