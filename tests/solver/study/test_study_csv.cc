// study.csv has the columns that solver/record/formats lists, and nothing in it that a
// spreadsheet would run.

#include "inputs/text/csv_table.h"
#include "solver/study/study_csv.h"
#include "tests/solver/study/made_up.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
StudyRecord record()
{
  StudyRecord study;
  study.keys     = {{"coupon.thickness", "mm", 1, 10}};
  StudyPass pass = made_up("through");
  pass.values    = {9.5};
  pass.words     = {"--material.grade", "s235"};
  pass.verdict   = "=1+1";
  pass.figures   = {{"peak_ram_force_N", 29700},
                    {"fit.nose_gap_end_mm", std::numeric_limits<double>::quiet_NaN()}};
  study.passes.push_back(pass);
  return study;
}

CsvTable table_of(const StudyRecord &study)
{
  std::istringstream in(study_csv(study));
  return CsvTable::read(in, "study.csv");
}
} // namespace

TEST_CASE("study.csv has the columns of the list", "[study][formats]")
{
  const CsvTable list = CsvTable::read(std::filesystem::path(THROUGHBEND_SOURCE_DIR) /
                                       "solver/record/formats/columns.csv");
  std::vector<std::string> heads;
  for (std::size_t i = 0; i < list.rows(); ++i)
    if (list.row(i)[0] == "study.csv")
    {
      const std::string &head = list.row(i)[1];
      if (head == "KEY")
        heads.emplace_back("coupon.thickness [mm]");
      else if (head == "FIGURE")
        for (const char *figure : {"fit.nose_gap_end_mm", "peak_ram_force_N"})
          heads.emplace_back(figure);
      else
        heads.push_back(head);
    }
  CHECK(table_of(record()).heads() == heads);
}

TEST_CASE("study.csv is in N, mm, MPa, deg whatever the study was asked in",
          "[study][formats]")
{
  StudyRecord study           = record();
  study.keys                  = {{"coupon.thickness", "in", 25.4, 10},
                                 {"material.yield", "ksi", 6.894757293168361, 250},
                                 {"ram.capacity", "kip", 4448.2216152605, 80000},
                                 {"weld.included_angle", "deg", std::acos(-1.) / 180, 1},
                                 {"friction.shoulders", "", 1, 0.1}};
  study.passes.front().values = {12.7, 250, 80000, std::acos(-1.) / 3, 0.12};
  const CsvTable table        = table_of(study);
  CHECK(table.numbers("coupon.thickness [mm]").front() == 12.7);
  CHECK(table.numbers("material.yield [MPa]").front() == 250);
  CHECK(table.numbers("ram.capacity [N]").front() == 80000);
  CHECK(table.numbers("weld.included_angle [deg]").front() == 60);
  CHECK(table.numbers("friction.shoulders").front() == 0.12);
}

TEST_CASE("texts of study.csv are marked, and its numbers are finite or empty",
          "[study][formats]")
{
  const CsvTable table = table_of(record());
  CHECK(table.words("also").front() == "'--material.grade s235");
  CHECK(table.words("verdict").front() == "'=1+1");
  CHECK(table.words("fit.nose_gap_end_mm").front().empty());
  CHECK(table.numbers("peak_ram_force_N").front() == 29700);
}

TEST_CASE("a key that follows others has no number in study.csv", "[study][formats]")
{
  StudyRecord study = record();
  study.keys.push_back({"friction.shoulders", "", 1, 0.1});
  study.passes.front().values = {9, std::numeric_limits<double>::quiet_NaN()};
  CHECK(table_of(study).words("friction.shoulders").front().empty());
}
