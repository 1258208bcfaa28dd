// Friction coefficients: [R] three handbook tables on friction that agree, the table of the
// LBL handbook; [M] Marks' handbook and common practice.

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/text/input_error.h"
#include "postprocess/words/catalogue_text.h"

#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

TEST_CASE("the built-in lubricants hold no fault", "[unit][catalogue]")
{
  CHECK(fault_list(read_lubricants(lubricants_csv(), "lubricants.csv").faults) == "");
}

TEST_CASE("friction coefficients as the tables have them", "[unit][catalogue]")
{
  struct Row
  {
    std::string name;
    double      at_rest, sliding;
    How         how;
  };
  const auto R = How::read;
  const auto M = How::from_memory;
  for (const Row &row : std::vector<Row>{{"grease", 0.10, 0.10, R},
                                         {"dry-clean-steel", 0.78, 0.42, R},
                                         {"oxide-film", 0.27, 0, R},
                                         {"sulphide-film", 0.39, 0, R},
                                         {"greased-cast-iron", 0.21, 0.133, R},
                                         {"greased-bronze", 0.19, 0.16, R},
                                         {"dry-mild-steel", 0.74, 0.57, M},
                                         {"light-oil", 0.23, 0.08, M},
                                         {"oleic-acid", 0.11, 0.08, M},
                                         {"stearic-acid", 0.005, 0.03, M},
                                         {"dry-aluminium", 0.61, 0.47, R}})
  {
    const Lubricant found = lubricant(row.name);
    INFO(row.name);
    CHECK(found.at_rest == row.at_rest);
    CHECK(found.sliding == row.sliding);
    CHECK(found.how.row == row.how);
    CHECK_FALSE(found.source.empty());
  }
}

TEST_CASE("ranges that a case takes", "[unit][catalogue]")
{
  // Greased shoulder 0.10 (0.05 to 0.15), dry mill scale 0.25 to 0.35, free rollers 0 to
  // 0.05, molybdenum disulphide 0.05 to 0.10: common practice, no source.
  CHECK(lubricant("grease").low == 0.05);
  CHECK(lubricant("grease").typical == 0.10);
  CHECK(lubricant("grease").high == 0.15);
  CHECK(lubricant("dry-mill-scale").low == 0.25);
  CHECK(lubricant("dry-mill-scale").high == 0.35);
  CHECK(lubricant("free-rollers").low == 0);
  CHECK(lubricant("free-rollers").high == 0.05);
  CHECK(lubricant("moly-paste").low == 0.05);
  CHECK(lubricant("moly-paste").high == 0.10);
  CHECK(lubricant("dry-clean-steel").low == 0.40);  // kinetic from 0.40 [R]
  CHECK(lubricant("dry-clean-steel").high == 0.80); // static to 0.80 [R]
  CHECK_THROWS_WITH(lubricant("greese"), Contains("did you mean 'grease'"));
}

TEST_CASE("a user's lubricants shadow, and bad ones are refused", "[unit][catalogue]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "own.csv").string();
  put_content(path, "lubricant,low,typical,high,how\n"
                    "grease,0.06,0.07,0.08,invented\nyard-soap,0.1,12 %,0.2,invented\n");
  CHECK(lubricants_with(path).row("grease").typical == 0.07);
  CHECK(lubricants_with(path).row("yard-soap").typical == 0.12);
  put_content(path, "lubricant,low,typical,high,how\n"
                    "Grease,0.06,0.07,0.08,invented\nsoap,0.3,0.1,0.2,invented\n"
                    "x,a,-1,2,invented\n");
  const std::string all = fault_list(faults_of_lubricants(path));
  INFO(all);
  CHECK_THAT(all, Contains(":2: lubricant = Grease; is no name"));
  CHECK_THAT(all, Contains(":3: typical = 0.1; must lie between"));
  CHECK_THAT(all, Contains(":4: low = a;") && Contains(":4: typical = -1; must be from 0"));
  CHECK_THAT(all, Contains(":4: high = 2; must be from 0 to 1"));
}

TEST_CASE("the list of lubricants names each with its source", "[unit][catalogue]")
{
  const std::string list = lubricants_text(built_in_lubricants());
  INFO(list);
  for (const Lubricant &row : built_in_lubricants().rows())
    CHECK_THAT(list, Contains("  " + row.name + " ") && Contains(row.name + ": "));
  CHECK_THAT(list, Contains("common practice, no source"));
}
