#pragma once
// Small parts of a card's text: an element, a number in both families, the end of a path.

#include "postprocess/card/bench_card.h"
#include "postprocess/card/card_figure.h"

#include <string>

namespace throughbend
{
/// `<p class="small">text</p>`, escaped.
std::string element(const std::string &tag, const std::string &text,
                    const std::string &kind = "");

/// The end of a path says which it is.
std::string path_text(const std::string &path);

/// A figure of the card, in both families.
std::string both(double value, Measure measure, Rounded rounded, const BenchCard &card);

/// What the case says, in both families; `text` of display_units.
std::string given(double           value, std::string (*text)(double, UnitSystem),
                  const BenchCard &card);
} // namespace throughbend
