#pragma once
// A case written down in full: every key with the value in force, defaults included, in
// metric units and with enough digits that reading it gives the very same case. What
// follows from other keys stands as a comment: whoever changes those changes it. Also its
// values one by one, which a run keeps of itself, and their fingerprint.

#include "inputs/case/case.h"

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
/// The effective case as an INI text. Keys without meaning in this case stand as comments.
std::string effective_text(const Case &);

/// Every key that has a meaning in this case, with its value as in the effective text; no
/// paths, whose contents are in other keys.
std::vector<std::pair<std::string, std::string>> case_values(const Case &);

/// A line for each key that differs, `ram.stroke 90 mm there, 100 mm here`; none for one
/// pass. Keys that change nothing in a pass are left out: solver.checkpoint_every.
std::vector<std::string>
case_difference(const std::vector<std::pair<std::string, std::string>> &there,
                const std::vector<std::pair<std::string, std::string>> &here);

/// 16 hexadecimal digits over all keys and values in force that change a pass, independent
/// of comments, of the units typed and of the order of keys. FNV-1a, 64 bit: Fowler, Noll,
/// Vo, Eastlake, "The FNV Non-Cryptographic Hash Algorithm", IETF draft-eastlake-fnv.
std::string case_hash(const Case &);

/// FNV-1a of any text, as 16 hexadecimal digits.
std::string fnv1a_hex(const std::string &text);
} // namespace throughbend
