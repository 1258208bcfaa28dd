#pragma once
// The form of what a run leaves: run.json and its tables. Members and columns are described
// in inputs/formats, which also says what a change of these numbers means.

namespace throughbend
{
/// MAJOR.MINOR, as run.json keeps it under `format`. What is added raises MINOR; what is
/// renamed, removed, or changes its unit or meaning raises MAJOR.
constexpr const char *run_format = "1.0";
} // namespace throughbend
