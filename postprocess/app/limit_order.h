#pragma once
// The words behind `throughbend limit` as an order. Reads no case: values stay texts.

#include "postprocess/app/study_order.h"

#include <string>
#include <vector>

namespace throughbend
{
struct LimitOrder
{
  struct Vary
  {
    std::string key, from, to, within; ///< within: empty for the default
  };
  StudyOrder        study;
  std::vector<Vary> vary;
  std::string       until = "through";
  std::size_t       scan  = 9;
};

LimitOrder limit_order(const VerbArguments &given);
} // namespace throughbend
