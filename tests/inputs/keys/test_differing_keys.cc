// In which keys cases differ, for people who compare runs. Cases are invented.

#include "inputs/keys/differing_keys.h"
#include "tests/support/case_texts.h"

#include <catch2/catch.hpp>

using namespace throughbend;

TEST_CASE("A case in inches differs from the same in millimetres in no key", "[unit][keys]")
{
  const Case metric = case_of(workshop_text(), {});
  Case       us     = metric; // as 170 mm come back from 6-11/16 in and the like
  us.coupon.length *= 1 - 2e-16;
  us.coupon.thickness += 1e-14;
  us.material.young *= 1 + 1e-13;
  CHECK(differing_keys({&metric, &us}).empty());

  us.coupon.thickness += 1e-6; // a machinist's last digit is a thousand times that
  const std::vector<DifferingKey> keys = differing_keys({&metric, &us});
  REQUIRE(keys.size() == 1);
  CHECK(keys.front().option->key() == "coupon.thickness");
  CHECK(keys.front().values[0] != keys.front().values[1]);
  CHECK(differing_keys({&metric, nullptr}).size() > 10); // not known
}
