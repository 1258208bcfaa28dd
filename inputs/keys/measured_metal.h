#pragma once
// A case's metal from the file of a tension test: the flow curve as a table, with what lies
// beyond the force maximum by a stated rule, and what to tell the user of it. Files are
// kept in mind, because a case asks once per key.

#include "inputs/case/case.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What is wrong with the file, a line each with the cure; nothing for an empty path.
/// `young` [MPa] is that of the case.
std::vector<std::string> faults_of_curve(const std::string &path, double young);

/// Law, table, last strain and tensile strength of the test that the material names;
/// nothing without a test, or with one that cannot be used.
std::optional<Material> measured_metal(const Material &material);

/// Whether the flow curve is that of the test that the material names.
bool is_measured(const Material &material);

/// What a user should know of the test and of the strain that it backs, a line each.
std::vector<std::string> curve_remarks(const Case &c);
} // namespace throughbend
