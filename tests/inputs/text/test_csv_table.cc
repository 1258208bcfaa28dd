// The table of a run folder: numbers come back exactly, broken files are named.

#include "inputs/text/csv_table.h"
#include "inputs/text/input_error.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <sstream>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
CsvTable table_of(const std::string &text)
{
  std::istringstream in(text);
  return CsvTable::read(in, "a.csv");
}
} // namespace

TEST_CASE("a number's text reads back as the same number", "[unit][output]")
{
  for (const double value :
       {0.1, 1.0 / 3.0, -2.5e-7, 6.02e23, 5e-324, 1.7976931348623157e308})
    CHECK(number_of(number_text(value)) == value);
  CHECK(number_text(0.1) == "0.1");
  CHECK(std::isnan(number_of(number_text(std::numeric_limits<double>::quiet_NaN()))));
  CHECK_THROWS_AS(number_of("12 mm"), InputError);
  CHECK_THROWS_AS(number_of(""), InputError);
}

TEST_CASE("cells with commas, quotes and line breaks survive", "[unit][output]")
{
  const std::vector<std::string> cells = {"a,b", "say \"no\"", "two\nlines", "", "plain"};
  const CsvTable                 table = table_of("1,2,3,4,5\n" + csv_line(cells));
  REQUIRE(table.rows() == 1);
  CHECK(table.row(0) == cells);
}

TEST_CASE("the unfinished last line of a killed run is left out", "[unit][output]")
{
  const CsvTable table = table_of("x [mm],y [mm]\r\n1,2\r\n3,");
  CHECK(table.heads() == std::vector<std::string>{"x [mm]", "y [mm]"});
  CHECK(table.numbers("y [mm]") == std::vector<double>{2});
}

TEST_CASE("a broken table says where it is broken", "[unit][output]")
{
  CHECK_THROWS_WITH(table_of("x,y\n1,2\n3\n"), Contains("a.csv: row 2 has 1 cells"));
  CHECK_THROWS_WITH(table_of("x,y\n1,2\n").numbers("z"),
                    Contains("no column 'z'") && Contains("'x', 'y'."));
  CHECK_THROWS_WITH(table_of("x,y\n1,2\n1,oak\n").numbers("y"),
                    Contains("column 'y', row 2") && Contains("'oak'"));
  CHECK_THROWS_AS(table_of(""), InputError);
  CHECK_THROWS_WITH(CsvTable::read("/no/such/table.csv"), Contains("/no/such/table.csv"));
}
