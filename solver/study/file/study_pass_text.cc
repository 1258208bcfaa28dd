#include "solver/study/file/study_pass_text.h"

#include "inputs/text/input_error.h"
#include "inputs/text/json.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
/// Shapes are looked at, not computed with.
std::vector<double> rounded(const std::vector<double> &lengths)
{
  std::vector<double> result;
  for (const double length : lengths)
    result.push_back(std::round(length * 1e4) / 1e4);
  return result;
}

Json outline_json(const StudyOutline &outline)
{
  return {{"name", outline.name}, {"x", rounded(outline.x)}, {"y", rounded(outline.y)}};
}

std::vector<double> numbers(const Json &json)
{
  std::vector<double> result;
  for (const Json &item : json)
    result.push_back(item.is_null() ? std::numeric_limits<double>::quiet_NaN()
                                    : item.get<double>());
  return result;
}

StudyOutline outline_of(const Json &json)
{
  StudyOutline outline{json.at("name").get<std::string>(), numbers(json.at("x")),
                       numbers(json.at("y"))};
  if (outline.x.size() != outline.y.size())
    throw InputError("an outline in it has more of one coordinate than of the other");
  return outline;
}

std::string dumped(const Json &json)
{
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

template <class Read>
auto read_json(const std::string &text, const Read &read)
{
  try
  {
    return read(Json::parse(text));
  }
  catch (const nlohmann::json::exception &)
  {
    throw InputError("study.db is broken: a pass in it cannot be read. Remove it and "
                     "make the study again.");
  }
}
} // namespace

std::string numbers_text(const std::vector<double> &list)
{
  return dumped(Json(list));
}

std::vector<double> numbers_of_text(const std::string &text)
{
  return read_json(text, [](const Json &json) { return numbers(json); });
}

std::string pass_text(const StudyPass &pass)
{
  Json json         = Json::object();
  json["values"]    = pass.values;
  json["words"]     = pass.words;
  json["case_hash"] = pass.case_hash;
  json["outcome"]   = pass.outcome;
  json["held"]      = pass.held;
  json["verdict"]   = pass.verdict;
  json["evidence"]  = pass.evidence;
  json["accounts"]  = pass.accounts;
  json["metal"]     = pass.metal;
  json["accuracy"]  = pass.accuracy;
  json["events"]    = pass.events;
  json["seconds"]   = pass.seconds;
  json["figures"]   = pass.figures;
  json["travel"]    = pass.travel;
  json["force"]     = pass.force;
  json["moments"]   = Json::array();
  for (const StudyMoment &moment : pass.moments)
  {
    Json tools = Json::array();
    for (const StudyOutline &tool : moment.tools)
      tools.push_back(outline_json(tool));
    json["moments"].push_back({{"travel", moment.travel},
                               {"force", moment.force},
                               {"coupon", outline_json(moment.coupon)},
                               {"tools", tools}});
  }
  return dumped(json);
}

StudyPass pass_of_text(const std::string &text)
{
  return read_json(text,
                   [](const Json &json)
                   {
                     StudyPass pass;
                     pass.values    = numbers(json.at("values"));
                     pass.words     = json.at("words").get<std::vector<std::string>>();
                     pass.case_hash = json.at("case_hash").get<std::string>();
                     pass.outcome   = json.at("outcome").get<std::string>();
                     pass.held      = json.at("held").get<std::string>();
                     pass.verdict   = json.at("verdict").get<std::string>();
                     pass.evidence  = json.at("evidence").get<std::string>();
                     pass.accounts  = json.value("accounts", std::string());
                     pass.metal     = json.at("metal").get<std::string>();
                     pass.accuracy  = json.at("accuracy").get<std::string>();
                     pass.events    = json.at("events").get<std::vector<std::string>>();
                     pass.seconds   = json.at("seconds").get<double>();
                     for (const auto &[name, value] : json.at("figures").items())
                       pass.figures[name] = value.get<double>();
                     pass.travel = numbers(json.at("travel"));
                     pass.force  = numbers(json.at("force"));
                     for (const Json &item : json.at("moments"))
                     {
                       StudyMoment moment;
                       moment.travel = item.at("travel").get<double>();
                       moment.force  = item.at("force").get<double>();
                       moment.coupon = outline_of(item.at("coupon"));
                       for (const Json &tool : item.at("tools"))
                         moment.tools.push_back(outline_of(tool));
                       pass.moments.push_back(std::move(moment));
                     }
                     if (pass.travel.size() != pass.force.size())
                       throw InputError("a pass in it has a force without its travel");
                     return pass;
                   });
}
} // namespace throughbend
