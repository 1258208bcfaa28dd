#include "solver/study/file/study_file.h"

#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "inputs/text/shown_text.h"
#include "solver/study/file/study_database.h"
#include "solver/study/file/study_pass_text.h"

#include <nlohmann/json.hpp>

namespace throughbend
{
namespace
{
StudyKind kind_of(const std::string &word, const std::string &file)
{
  for (const StudyKind kind :
       {StudyKind::limit, StudyKind::map, StudyKind::spread, StudyKind::choice})
    if (to_text(kind) == word)
      return kind;
  throw InputError(file + " holds a study of an unknown kind: " + quoted_text(word) +
                   ". Make the study again.");
}
} // namespace

std::string to_text(const StudyKind kind)
{
  switch (kind)
  {
  case StudyKind::limit:
    return "limit";
  case StudyKind::map:
    return "map";
  case StudyKind::spread:
    return "spread";
  case StudyKind::choice:
    break;
  }
  return "choice";
}

bool is_study(const std::filesystem::path &folder)
{
  std::error_code none;
  return std::filesystem::is_regular_file(folder / study_file_name, none);
}

std::string keys_text(const std::vector<StudyKey> &keys)
{
  Json json = Json::array();
  for (const StudyKey &key : keys)
    json.push_back(
        {{"key", key.key}, {"unit", key.unit}, {"scale", key.scale}, {"own", key.own}});
  return json.dump();
}

StudyRecord read_study(const std::filesystem::path &folder)
{
  const std::string   file = (folder / study_file_name).string();
  const StudyDatabase database(file, StudyAccess::read);
  StudyRecord         record;
  bool                is_begun = false;
  try
  {
    for (StudyStatement row = database("SELECT name, value FROM study"); row.next();)
    {
      const std::string name = row.text(0), value = row.text(1);
      if (name == "kind")
      {
        record.kind = kind_of(value, file);
        is_begun    = true;
      }
      else if (name == "title")
        record.title = value;
      else if (name == "case")
        record.case_text = value;
      else if (name == "planned")
        record.planned = std::stoul(value);
      else if (name == "whole")
        record.whole = value == "yes";
      else if (name == "answers")
        record.answers = value;
      else if (name == "keys")
        for (const Json &key : Json::parse(value))
          record.keys.push_back(
              {key.at("key").get<std::string>(), key.at("unit").get<std::string>(),
               key.at("scale").get<double>(), key.at("own").get<double>()});
    }
    for (StudyStatement row =
             database("SELECT pass.record, place.vals, place.words FROM place JOIN pass "
                      "ON pass.hash = place.hash ORDER BY place.number");
         row.next();)
    {
      StudyPass pass = pass_of_text(row.text(0));
      pass.values    = numbers_of_text(row.text(1));
      pass.words     = Json::parse(row.text(2)).get<std::vector<std::string>>();
      if (pass.values.size() != record.keys.size())
        throw InputError(file +
                         " is broken: a pass lacks the value of a key. Remove it and "
                         "make the study again.");
      record.passes.push_back(std::move(pass));
    }
  }
  catch (const nlohmann::json::exception &)
  {
    throw InputError(file +
                     " is broken: its keys or words cannot be read. Remove it and make "
                     "the study again.");
  }
  catch (const std::logic_error &) // of std::stoul
  {
    throw InputError(file +
                     " is broken: the number of its passes cannot be read. Remove it "
                     "and make the study again.");
  }
  if (!is_begun)
    throw InputError(file + " holds no study: it was stopped before it began. Give the "
                            "command again.");
  return record;
}
} // namespace throughbend
