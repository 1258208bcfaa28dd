#pragma once
// The file of a study as SQL tables: opened with all that makes it safe against kill -9, a
// second writer and a full disk. Knows the tables, not what they mean.

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace throughbend
{
/// An SQL statement with its values; each `?` is bound in order.
class StudyStatement
{
public:
  StudyStatement(sqlite3 *database, const std::string &sql, const std::string &file);

  StudyStatement &operator<<(const std::string &text);
  StudyStatement &operator<<(double number);
  StudyStatement &operator<<(long long number);

  bool        next(); ///< a row, while there is one. Throws std::runtime_error
  void        run();  ///< without rows
  std::string text(int column) const;
  double      number(int column) const;
  long long   whole(int column) const;

private:
  struct Close
  {
    void operator()(sqlite3_stmt *statement) const;
  };
  sqlite3                             *database_;
  std::string                          file_;
  std::unique_ptr<sqlite3_stmt, Close> statement_;
  int                                  bound_ = 0;
};

enum class StudyAccess
{
  read,
  write ///< makes the file and its tables where there are none
};

class StudyDatabase
{
public:
  /// Throws InputError when the file is not there (to read), is none of a study or of a
  /// later version, or cannot be opened; std::runtime_error for a fault of the machine.
  StudyDatabase(const std::filesystem::path &file, StudyAccess access);

  StudyStatement operator()(const std::string &sql) const;

  /// All of it, or nothing of it.
  template <class Work>
  void at_once(const Work &work)
  {
    (*this)("BEGIN IMMEDIATE").run();
    try
    {
      work();
      (*this)("COMMIT").run();
    }
    catch (...)
    {
      roll_back();
      throw;
    }
  }

private:
  struct Close
  {
    void operator()(sqlite3 *database) const;
  };
  void check_kind();
  void make_tables();
  void roll_back() noexcept;

  std::string                     file_;
  std::unique_ptr<sqlite3, Close> database_;
};
} // namespace throughbend
