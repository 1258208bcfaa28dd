#pragma once
// The section [spread] of a case: which keys differ from coupon to coupon, and by what law.
// It says nothing about one pass, so it is no part of a Case nor of its hash; a study of
// many passes reads it. Also the laws that catalogues give for strength and friction.

#include "inputs/case/case.h"
#include "inputs/case/option.h"
#include "inputs/case/scatter_law.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
struct KeySpread
{
  std::string key;                     ///< as in a case: coupon.thickness
  UnitKind    kind = UnitKind::length; ///< of its value
  ScatterLaw  law;                     ///< not with `follows`
  std::string follows; ///< key of which it takes the value; empty: its own law
  std::string says;    ///< as it was written
  std::string source;  ///< where the law is from, or that it is assumed
};

/// Name of the section; a key in it is that of the case: spread.coupon.thickness.
constexpr const char *spread_section = "spread";

struct KeySpreadReading
{
  KeySpread   spread;
  std::string error; ///< with the cure; empty if it is good
  std::string allowed;
  std::string remark; ///< worth telling; may be empty
};

/// The law of a key in a case whose own values are known.
KeySpreadReading read_key_spread(const Option &option, std::string_view text,
                                 const Case &own);

/// Why a key cannot scatter, whatever its law; empty: it can.
std::string why_no_spread(const Option &option, const Case &own);

/// What is wrong between the spreads of several keys, a line each: a key that follows one
/// which does not scatter, or which follows another itself.
struct SpreadFault
{
  std::size_t which = 0; ///< of the spreads
  std::string problem, allowed;
};
std::vector<SpreadFault> spread_faults(const std::vector<KeySpread> &spreads);

/// The section as it can be read again, each law with its source; empty without spreads.
std::string spread_text(const std::vector<KeySpread> &spreads);

/// What the section is, for help and the starter.
std::string spread_help();
} // namespace throughbend
