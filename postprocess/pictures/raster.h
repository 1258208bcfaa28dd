#pragma once
// A picture drawn by plain arithmetic: filled shapes, lines and text, written as PNG. Needs
// no display and no OpenGL, which VTK's render windows do and abort without; a bent coupon
// seen from the side is flat, so nothing is lost. Knows nothing of coupons.

#include "meshes/tools/rigid_profile.h"
#include "postprocess/drawing/anchor.h"
#include "postprocess/drawing/colour_map.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace throughbend
{
enum class TextDirection
{
  level,
  upwards ///< from below to above
};

enum class Weight
{
  plain,
  bold
};

enum class Rim
{
  none,
  white ///< about each letter, to be read on lines
};

struct TextStyle
{
  TextDirection reading = TextDirection::level;
  Weight        weight  = Weight::plain;
  Rim           rim     = Rim::none;
};

/// Coordinates are pixels of the finished picture, x to the right, y down.
class Raster
{
public:
  Raster(int width, int height, Colour ground);

  void fill(const std::vector<PlaneVector> &polygon, Colour colour); ///< even-odd

  /// Triangle with a value at each corner, laid over evenly and coloured by `colour`.
  void fill(const std::array<PlaneVector, 3> &corners, const std::array<double, 3> &values,
            const std::function<Colour(double)> &colour);

  void line(PlaneVector from, PlaneVector to, double width, Colour colour);

  /// Text is put on when the picture is written, over everything else. `at` is the
  /// point on its base line that the anchor names.
  void text(const std::string &words, PlaneVector at, int size, Anchor anchor,
            Colour colour, const TextStyle &style = {});

  /// The finished picture as the bytes of a PNG file.
  std::string png() const;

private:
  struct Label
  {
    std::string words;
    PlaneVector at;
    int         size   = 0;
    Anchor      anchor = Anchor::left;
    Colour      colour;
    TextStyle   style;
  };
  void   set(int x, int y, Colour colour);
  Colour pixel(int x, int y) const; ///< of the finished picture, mean of the fine ones

  int                        width_, height_; ///< of the finished picture
  std::vector<unsigned char> fine_;           ///< three times as many pixels each way
  std::vector<Label>         labels_;
};
} // namespace throughbend
