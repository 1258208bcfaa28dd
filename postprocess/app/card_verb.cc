#include "postprocess/app/card_verb.h"

#include "inputs/keys/case_reader.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/companion.h"
#include "postprocess/app/help.h"
#include "postprocess/app/push_order.h"
#include "postprocess/app/version.h"
#include "postprocess/card/bench_card.h"
#include "solver/study/file/study_file.h"

#include <fmt/core.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

/// Throws unless the place is free, or holds a card that may be replaced.
void check_place(const fs::path &file, const VerbArguments &given)
{
  std::error_code fault;
  if (!fs::exists(fs::symlink_status(file, fault)))
    return;
  if (fs::is_directory(file, fault))
    throw InputError("--into " + file.string() +
                     ": that is a folder, and a card is a file. Say --into " +
                     (file / "card.html").string());
  if (!fs::is_regular_file(file, fault)) // opening a pipe would wait for ever
    throw InputError("--into " + file.string() +
                     ": this is not a regular file but a pipe, a device or a broken "
                     "link. Choose another name.");
  if (!given.has("overwrite"))
    throw InputError("the file " + file.string() +
                     " exists already. Choose another file with --into FILE, or add "
                     "--overwrite to replace the card in it.");
  std::ifstream in(file, std::ios::binary);
  if (!is_bench_card(
          {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()}))
    throw InputError("the file " + file.string() +
                     " is not a card made by throughbend, so --overwrite does not "
                     "replace it. Choose another file with --into FILE.");
}

/// Beside the runs of the same case: card-NAME.html here.
fs::path place_of(const VerbArguments &given, const std::string &case_file)
{
  if (!given.has("into"))
    return "card-" + default_folder(case_file).filename().string() + ".html";
  if (given.value("into").empty())
    throw InputError("--into names no file.");
  return given.value("into");
}

bool holds_study(const std::string &folder)
{
  std::error_code fault;
  return fs::exists(fs::path(folder) / study_file_name, fault);
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(card_verb(), words);
  if (given.help)
    return show(verb_help(card_verb()));
  // The file of a study is read by the program that writes it.
  const std::vector<std::string> folders = given.values("from");
  if (std::any_of(folders.begin(), folders.end(), holds_study))
  {
    std::vector<std::string> all = {"card"};
    all.insert(all.end(), words.begin(), words.end());
    become("throughbend-study", all);
  }
  return make_card(given, nullptr);
}
} // namespace

ExitCode make_card(const VerbArguments &given, StudyRecord (*read)(const fs::path &))
{
  const std::string case_file = the_case_file(given, "card");
  if (given.operands.size() > 1)
    throw InputError("one case at a time, not '" + given.operands[1] +
                     "' as well. Runs are named one by one: --from RUN --from RUN");
  const CaseReading reading = read_case(case_file, given.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  const fs::path file = place_of(given, case_file);
  check_place(file, given);

  BenchCard card;
  card.given     = *reading.value;
  card.case_file = case_file;
  std::vector<std::string> runs;
  PassLimits               passes;
  for (const std::string &folder : given.values("from"))
    if (read != nullptr && holds_study(folder))
      add_limits(passes, pass_limits(read(folder), folder, card.given));
    else
      runs.push_back(folder);
  card.limits  = case_limits(card.given, passes);
  card.program = "throughbend " + program_version();
  card.units   = units_of(given);
  if (runs.size() > most_card_runs)
    throw InputError(fmt::format(
        "--from: a card has room for {} runs, not {}. Name those nearest to the limits.",
        most_card_runs, runs.size()));
  for (const std::string &folder : runs)
    card.runs.push_back(card_run(folder, card.given, card.limits));
  const std::string html = bench_card(card);
  if (!may_print())
    return ExitCode::finding;
  write_named_file("--into", file, html);
  for (const CardRun &run : card.runs)
    if (run.contradicts)
      std::cerr << "note: " << shown_text(run.folder)
                << " lies within the card's limits: " << shown_text(run.found)
                << "; the card warns against using them.\n";
  return show("card      " + file.string() + "\n");
}

Verb card_verb()
{
  return {
      "card",
      "CASE",
      "one sheet for the bench: what the fixture takes, and safety rules",
      "Writes one HTML page that prints on one sheet, A4 or Letter: the thickest, "
      "longest and strongest coupon that the fixture and the ram take, the smallest "
      "ram, where the grease goes, safety rules, and the rule that the fixture follows. "
      "The numbers are those of check with its margins, each with its source. With "
      "--from, finished runs of the same fixture stand beside them; the card says where "
      "a run contradicts a number. Limits from a study of the same case (throughbend "
      "limit or map, along coupon.thickness, coupon.length or material.yield) replace "
      "the closed forms, with the same margins. The card is an estimate: the governing "
      "code and licensed practice decide.",
      {{"from",
        "FOLDER",
        "folder of a finished run of this fixture (up to " +
            std::to_string(most_card_runs) +
            "), or of a study of this case; may be repeated",
        {},
        Given::again},
       {"into",
        "FILE",
        "file of the card; default card-NAME.html here, where NAME is the name of the "
        "case",
        {}},
       {"overwrite", "", "replace the card in the file", {}},
       units_option("first; the card has both")},
      CaseKeys::taken,
      12,
      carry_out};
}
} // namespace throughbend
