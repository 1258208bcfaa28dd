// What solver/record/formats says of a run folder is what the program writes: every member
// of run.json is described there, every word it may be is listed, and every table has the
// columns of the list.

#include "inputs/keys/option_table.h"
#include "inputs/text/csv_table.h"
#include "inputs/text/json.h"
#include "solver/record/opening_record.h"
#include "solver/record/run_format.h"
#include "solver/record/run_summary.h"
#include "solver/record/surface_record.h"
#include "solver/record/travel_record.h"
#include "tests/support/reference_case.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <functional>
#include <regex>

using namespace throughbend;

namespace
{
const std::filesystem::path formats =
    std::filesystem::path(THROUGHBEND_SOURCE_DIR) / "solver/record/formats";

Json schema()
{
  return Json::parse(content(formats / "run.schema.json"));
}

/// The part of JSON Schema (draft 2020-12) that the file uses; any other word of it stops
/// the test, so that nothing is passed over.
class Checker
{
public:
  explicit Checker(Json root) : root_(std::move(root)) {}

  /// What is wrong with a value, a line each with its path.
  std::vector<std::string> faults(const Json &value)
  {
    faults_.clear();
    check(value, root_, "");
    return faults_;
  }

private:
  void fault(const std::string &path, const std::string &what)
  {
    faults_.push_back(path + ": " + what);
  }

  static bool is_of(const Json &value, const std::string &type)
  {
    if (type == "object")
      return value.is_object();
    if (type == "array")
      return value.is_array();
    if (type == "string")
      return value.is_string();
    if (type == "boolean")
      return value.is_boolean();
    if (type == "null")
      return value.is_null();
    if (type == "integer")
      return value.is_number_integer();
    if (type == "number")
      return value.is_number();
    throw std::logic_error("the schema has a type that this test does not know: " + type);
  }

  void check(const Json &value, const Json &rule, const std::string &path)
  {
    for (const auto &[word, content] : rule.items())
      apply(value, rule, word, content, path);
  }

  void apply(const Json &value, const Json &rule, const std::string &word,
             const Json &content, const std::string &path)
  {
    if (word == "$ref")
      check(value, root_.at(Json::json_pointer(content.get<std::string>().substr(1))),
            path);
    else if (word == "type")
    {
      const std::vector<std::string> types =
          content.is_array() ? content.get<std::vector<std::string>>()
                             : std::vector<std::string>{content.get<std::string>()};
      if (std::none_of(types.begin(), types.end(),
                       [&](const std::string &type) { return is_of(value, type); }))
        fault(path, "is no " + content.dump());
    }
    else if (word == "const")
    {
      if (value != content)
        fault(path, "is not " + content.dump());
    }
    else if (word == "enum")
    {
      if (std::find(content.begin(), content.end(), value) == content.end())
        fault(path, value.dump() + " is none of " + content.dump());
    }
    else if (word == "minimum")
    {
      if (value.is_number() && value.get<double>() < content.get<double>())
        fault(path, "is below " + content.dump());
    }
    else if (word == "minProperties" || word == "maxProperties")
    {
      const bool least = word == "minProperties";
      if (value.is_object() && (least ? value.size() < content.get<std::size_t>()
                                      : value.size() > content.get<std::size_t>()))
        fault(path, "has too few or too many members");
    }
    else if (word == "required")
    {
      for (const Json &name : content)
        if (value.is_object() && !value.contains(name.get<std::string>()))
          fault(path, "lacks " + name.get<std::string>());
    }
    else if (word == "items")
    {
      for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
        check(value[i], content, path + "." + std::to_string(i));
    }
    else if (word == "anyOf")
    {
      const bool any = std::any_of(content.begin(), content.end(),
                                   [&](const Json &one) { return holds(value, one); });
      if (!any)
        fault(path, "is none of the forms it may have");
    }
    else if (word == "if")
      check(value,
            holds(value, content) ? rule.value("then", Json::object())
                                  : rule.value("else", Json::object()),
            path);
    else if (word == "properties")
      check_members(value, rule, path);
    else if (word == "patternProperties")
    {
      if (!rule.contains("properties"))
        check_members(value, rule, path);
    }
    else if (word == "additionalProperties")
    {
      if (!rule.contains("properties") && !rule.contains("patternProperties"))
        check_members(value, rule, path);
    }
    else if (word != "$schema" && word != "$id" && word != "$comment" && word != "title" &&
             word != "description" && word != "unit" && word != "$defs" && word != "else")
      throw std::logic_error("the schema has a word that this test does not know: " + word);
  }

  bool holds(const Json &value, const Json &rule) const
  {
    Checker other(root_);
    other.check(value, rule, "");
    return other.faults_.empty();
  }

  void check_members(const Json &value, const Json &rule, const std::string &path)
  {
    if (!value.is_object())
      return;
    for (const auto &[name, member] : value.items())
    {
      const std::string here      = path + "." + name;
      bool              described = false;
      if (rule.contains("properties") && rule.at("properties").contains(name))
      {
        check(member, rule.at("properties").at(name), here);
        described = true;
      }
      if (rule.contains("patternProperties"))
        for (const auto &[pattern, form] : rule.at("patternProperties").items())
          if (std::regex_search(name, std::regex(pattern)))
          {
            check(member, form, here);
            described = true;
          }
      const Json rest = rule.value("additionalProperties", Json(true));
      if (described || rest == Json(true))
        continue;
      if (rest == Json(false))
        fault(here, "is not described");
      else
        check(member, rest, here);
    }
  }

  Json                     root_;
  std::vector<std::string> faults_;
};

std::string all(const std::vector<std::string> &lines)
{
  std::string text;
  for (const std::string &line : lines)
    text += line + "\n";
  return text;
}

std::string faults_of(const RunSummary &summary)
{
  return all(Checker(schema()).faults(Json::parse(summary_text(summary))));
}

Evidence sentence_of_all_measures()
{
  using Measure = Evidence::Measure;
  Evidence sentence("All measures: ");
  for (const Measure measure : {Measure::length, Measure::room, Measure::force,
                                Measure::force_rise, Measure::pressure, Measure::angle})
    sentence.add(measure, 1.5);
  return sentence;
}

FaceFigures face_of_all_zones()
{
  FaceFigures face;
  face.travel = 40;
  for (const FaceZone zone :
       {FaceZone::left_base, FaceZone::left_haz, FaceZone::weld, FaceZone::right_haz})
  {
    ZoneFigures figures;
    figures.peak  = {zone, 0.2, 1.5, 0.5};
    figures.limit = {DuctilityLimit::Measure::elongation, 0.3};
    figures.from  = -1;
    figures.to    = 1;
    face.zones.push_back(figures);
  }
  face.zones.back().limit->measure = DuctilityLimit::Measure::local_strain;
  face.zones.front().limit.reset();
  face.peak   = face.zones[2].peak;
  face.across = AcrossFigures();
  return face;
}

/// Every member that a run can have at all (invented figures).
RunSummary whole_summary()
{
  RunSummary run;
  run.state              = RunState::finished;
  run.origin.title       = "all that a run can have";
  run.origin.resumed     = {"2031-04-05T06:07:08Z"};
  run.origin.model       = "quarter";
  run.origin.dimension   = 3;
  run.origin.libraries   = {{"deal.II", "9.4"}};
  run.origin.case_values = {{"coupon.thickness", "10 mm"}, {"flaw2.depth", "2 mm"}};
  run.failure            = "an error";
  run.finding            = Finding{};
  run.finding->outcome   = Outcome::over_capacity;
  run.finding->held      = JamKind::squeezed;
  run.finding->where     = "left leg";
  run.finding->verdict   = sentence_of_all_measures();
  run.finding->account   = sentence_of_all_measures();
  run.finding->beyond    = BeyondCapacity{};
  run.finding->events.push_back({EventKind::ironed, "left", 5, 20, 1e4, 2e4, 19, 2e4});
  run.finding->accuracy.trust = Trust::low;
  run.finding->accuracy.reasons.push_back(sentence_of_all_measures());
  run.metal          = MetalAnswer{MetalVerdict::beyond, sentence_of_all_measures()};
  run.figures        = KeyFigures();
  run.figures->width = WidthFigures();
  run.strain_remark  = "at the toe of the cap";
  run.wire_diameter  = 3;
  run.face_at_end    = face_of_all_zones();
  run.face_at_peak   = face_of_all_zones();
  run.flaws.push_back({"flaw3", true, 2, 30, 3, 31, 1.9, 0, 0});
  run.tools.push_back({"left shoulder", 100, 20, 3, 200, 150, 900, 600, 0.01});
  run.tools.emplace_back();
  run.tools.back().tool = "plunger";
  run.release           = Release{88, 89, 85, 86.5, 3, 2.5, 12000, 2000, 7.25, true};
  run.effort            = RunEffort{64, 686, 300, {2, 0.75, 0.25, 0.5}};
  run.bars.emplace();
  run.bars->own = {"through", 3e4, 0.2};
  run.bars->passes.push_back(
      {"finer mesh", BarPass::Kind::numerics, {"through", 3.1e4, 0.21}});
  run.bars->passes.push_back({"friction + 0.03", BarPass::Kind::shop});
  return run;
}

/// Heads of one file in the list, with the placeholder written out for each of `names`.
std::vector<std::string> listed(const std::string              &file,
                                const std::string              &placeholder = "",
                                const std::vector<std::string> &names       = {})
{
  const CsvTable           table = CsvTable::read(formats / "columns.csv");
  std::vector<std::string> plain, repeated;
  std::vector<std::string> heads;
  const auto               write_out = [&]
  {
    for (const std::string &name : names)
      for (const std::string &rest : repeated)
        heads.push_back(name + rest);
    repeated.clear();
  };
  for (std::size_t i = 0; i < table.rows(); ++i)
  {
    const std::string head = table.row(i)[table.index_of("column")];
    if (table.row(i)[table.index_of("file")] != file)
      continue;
    if (!placeholder.empty() && head.rfind(placeholder + " ", 0) == 0)
      repeated.push_back(head.substr(placeholder.size()));
    else
    {
      write_out();
      heads.push_back(head);
    }
  }
  write_out();
  return heads;
}

std::vector<std::string> written_heads(const std::filesystem::path &file)
{
  return CsvTable::read(file).heads();
}
} // namespace

TEST_CASE("every member that run.json can have is described", "[unit][formats]")
{
  CHECK(faults_of(whole_summary()) == "");
  CHECK(faults_of(RunSummary()) == ""); // a run under way
  RunSummary bare    = whole_summary(); // figures and words that are not known
  bare.finding       = Finding{};
  bare.finding->jam  = JamKind::other;
  bare.wire_diameter = 0;
  bare.face_at_end.reset();
  bare.face_at_peak = FaceFigures();
  CHECK(faults_of(bare) == "");
}

TEST_CASE("the whole summary leaves no described member out", "[unit][formats]")
{
  const Json written = Json::parse(summary_text(whole_summary())), all_of = schema();
  for (const auto &[name, member] : all_of.at("properties").items())
  {
    INFO(name);
    CHECK(written.contains(name));
    if (written.contains(name) && member.contains("properties"))
      for (const auto &[inner, rule] : member.at("properties").items())
      {
        INFO(inner);
        CHECK(written.at(name).contains(inner));
      }
  }
}

TEST_CASE("what is not described, of another kind or missing is found", "[unit][formats]")
{
  const Json whole = Json::parse(summary_text(whole_summary()));
  const auto wrong = [&](const char *pointer, const Json &value)
  {
    Json changed                         = whole;
    changed[Json::json_pointer(pointer)] = value;
    return Checker(schema()).faults(changed).size();
  };
  CHECK(wrong("/key_figures/new_figure_mm", 1) == 1);
  CHECK(wrong("/surprise", 1) == 1);
  CHECK(wrong("/key_figures/peak_ram_force_N", "30 kN") == 1);
  CHECK(wrong("/finding/outcome", "bent") == 1);
  CHECK(wrong("/finding/verdict/1/weight_kg", 1) > 0);
  CHECK(wrong("/finding/beyond_capacity", true) == 1);
  CHECK(wrong("/convex_face/at_end/zones/cap", Json::object()) == 1);
  CHECK(wrong("/format", "2.0") == 1);
  Json lacking = whole;
  lacking.at("release").erase("completed");
  lacking.erase("made_with");
  CHECK(Checker(schema()).faults(lacking).size() == 2);
}

TEST_CASE("every word that a run can say is listed", "[unit][formats]")
{
  const Json root   = schema();
  const auto listed = [&](const char *pointer, const std::string &word)
  {
    const Json &words = root.at(Json::json_pointer(pointer)).at("enum");
    INFO(pointer << " " << word);
    CHECK(std::find(words.begin(), words.end(), Json(word)) != words.end());
  };
  for (int i = 0; i <= static_cast<int>(Outcome::undecided); ++i)
    listed("/properties/finding/properties/outcome", to_text(static_cast<Outcome>(i)));
  for (int i = 0; i <= static_cast<int>(JamKind::other); ++i)
    for (const char *member : {"jam", "held_by"})
      listed((std::string("/properties/finding/properties/") + member).c_str(),
             to_text(static_cast<JamKind>(i)));
  for (int i = 0; i <= static_cast<int>(BeyondEnd::not_known); ++i)
    listed("/$defs/beyond_capacity/properties/ends", to_text(static_cast<BeyondEnd>(i)));
  for (int i = 0; i <= static_cast<int>(EventKind::bent_short); ++i)
    listed("/$defs/event/properties/kind", to_text(static_cast<EventKind>(i)));
  for (int i = 0; i <= static_cast<int>(MetalVerdict::not_known); ++i)
    listed("/properties/metal/properties/answer", to_text(static_cast<MetalVerdict>(i)));
  for (int i = 0; i <= static_cast<int>(RunState::failed); ++i)
    listed("/properties/state", to_text(static_cast<RunState>(i)));
  for (const Trust trust : {Trust::sound, Trust::low, Trust::broken})
    listed("/properties/numerical_quality/properties/accuracy", to_text(trust));
}

TEST_CASE("the schema is of the form that the program writes", "[unit][formats]")
{
  const Json root = schema();
  CHECK(root.at("properties").at("format").at("const") == run_format);
  CHECK(root.at("$id") == std::string("urn:throughbend:run:") + run_format);
  CHECK(Json::parse(summary_text(RunSummary())).at("format") == run_format);
  const std::regex key(
      root.at("properties").at("case").at("patternProperties").begin().key());
  for (const Option &option : option_table())
  {
    INFO(option.key());
    CHECK(std::regex_search(option.key(), key));
  }
}

TEST_CASE("a number of run.json is described with the unit that ends its name",
          "[unit][formats]")
{
  // A member's ending and its unit as the description has it.
  const std::vector<std::pair<std::string, std::string>> endings = {
      {"_N_per_mm", "N/mm"}, {"_N_mm", "N mm"}, {"_m_per_s", "m/s"}, {"_mm", "mm"},
      {"_N", "N"},           {"_MPa", "MPa"},   {"_deg", "deg"}};
  std::size_t                       numbers = 0;
  std::function<void(const Json &)> look;
  look = [&](const Json &rule)
  {
    if (rule.is_object() && rule.contains("properties"))
      for (const auto &[name, member] : rule.at("properties").items())
      {
        const std::string type = member.value("type", Json()).dump();
        if (type.find("number") == std::string::npos || name == "up" || name == "down" ||
            rule.at("properties").contains("assembly")) // of wall_time_s
          continue;
        ++numbers;
        std::string unit = "-";
        for (const auto &[ending, of] : endings)
          if (unit == "-" && name.size() > ending.size() &&
              name.compare(name.size() - ending.size(), ending.size(), ending) == 0)
            unit = of;
        INFO(name);
        CHECK(member.value("unit", std::string("none")) == unit);
        CHECK(member.value("description", std::string()).size() > 5);
      }
    if (rule.is_structured())
      for (const Json &inner : rule)
        look(inner);
  };
  look(schema());
  CHECK(numbers > 100);
}

TEST_CASE("the tables of a run have the columns of the list", "[unit][formats]")
{
  std::vector<std::string> tools;
  for (const ToolName &tool : tool_list())
    tools.push_back(tool.name);
  CHECK(travel_heads() == listed("travel.csv", "TOOL", tools));

  const ScratchFolder folder;
  SurfaceShot         shot;
  shot.rows.emplace_back();
  write_surface_record(folder / "plane.csv", {shot});
  std::vector<std::string> heads = listed("surface.csv");
  CHECK(written_heads(folder / "plane.csv") == heads);
  shot.rows.front().across = AcrossRow();
  write_surface_record(folder / "body.csv", {shot});
  for (const std::string &head : listed("surface.csv of a body"))
    heads.push_back(head);
  CHECK(written_heads(folder / "body.csv") == heads);

  Flaws flaws;
  for (Flaw &flaw : flaws.each)
    flaw.depth = 2;
  OpeningRecord(folder / "opening.csv", flaws);
  CHECK(written_heads(folder / "opening.csv") ==
        listed("opening.csv", "FLAW", {"flaw", "flaw2", "flaw3"}));
}

TEST_CASE("a head of the list ends with its unit", "[unit][formats]")
{
  const CsvTable table = CsvTable::read(formats / "columns.csv");
  CHECK(table.heads() == std::vector<std::string>{"file", "column", "unit", "meaning"});
  for (std::size_t i = 0; i < table.rows(); ++i)
  {
    const std::string head = table.row(i)[1], unit = table.row(i)[2];
    INFO(head);
    const std::size_t open = head.find(" [");
    if (open != std::string::npos && head.find(';') == std::string::npos)
      CHECK(head.substr(open + 2, unit.size()) == unit);
    else
      CHECK((unit.empty() || unit == "-"));
    CHECK(table.row(i)[3].size() > 3);
  }
}
