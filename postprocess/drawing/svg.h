#pragma once
// A sheet of paper on which lines, arcs, arrows and texts are put, and its SVG text. Keeps
// what was put on it, so that a test can measure where things lie. Knows nothing of what is
// drawn.

#include "meshes/tools/rigid_profile.h"
#include "postprocess/drawing/anchor.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// Rectangle on the sheet [mm], y down.
struct Box
{
  PlaneVector low, high;

  double width() const { return high.x - low.x; }
  double height() const { return high.y - low.y; }
  Box    grown(double by) const
  {
    return {low - PlaneVector{by, by}, high + PlaneVector{by, by}};
  }
  bool overlaps(const Box &other) const;
};

/// Line types of a mechanical drawing, by the habits of ISO 128.
enum class Pen
{
  outline, ///< thick: visible edges
  thin,    ///< dimension, extension and leader lines, hatching, breaks
  centre,  ///< thin, long dash and dot
  phantom  ///< thin, long dash and two dots: where a moving part also stands
};

/// What a mark belongs to. A CAD file has a layer of this name, so that a reader can take a
/// part alone.
enum class Layer
{
  sheet,       ///< border, title block, tables, notes
  plunger,     ///< outline in section
  shoulders,   ///< outline in section
  frame,       ///< outline of the plates in section
  coupon,      ///< flat, in section
  coupon_plan, ///< from above
  hatching,
  breaks, ///< where a view ends, not the part
  centre, ///< centre lines
  later,  ///< plunger and coupon further down
  dimensions,
  detail ///< all of the enlarged view
};

/// A straight line, or a circular arc of less than half a turn.
struct Stroke
{
  PlaneVector from, to;
  double      radius    = 0;     ///< 0 = straight [mm]
  bool        clockwise = false; ///< as seen on the sheet
  Pen         pen       = Pen::thin;
  Layer       layer     = Layer::sheet;

  PlaneVector middle() const;
  PlaneVector centre() const; ///< of the circle that an arc is part of
};

struct SheetText
{
  std::string words;
  PlaneVector at; ///< on the base line
  Anchor      anchor = Anchor::left;
  double      height = 0; ///< of the capitals [mm]
  Box         box;        ///< what it takes up, estimated on the safe side
  Layer       layer = Layer::sheet;
};

/// The filled head of an arrow.
struct ArrowHead
{
  PlaneVector tip, left, right;
  Layer       layer = Layer::sheet;
};

constexpr double text_height = 2.5; ///< of capitals [mm]; the least that ISO 3098 has

/// How wide a text gets [mm], in a wide sans-serif letter.
double text_width(std::string_view words, double height = text_height);

/// Words broken into lines that are no wider than this [mm].
std::vector<std::string> lines_within(std::string_view words, double width,
                                      double height = text_height);

class Sheet
{
public:
  void use(Layer layer) { layer_ = layer; } ///< for all that is put on from now

  void line(PlaneVector from, PlaneVector to, Pen pen = Pen::thin);
  void stroke(Stroke stroke); ///< on the layer in use, whatever layer it names
  void rectangle(const Box &box, Pen pen);
  void arrow(PlaneVector tip,
             PlaneVector towards); ///< filled head, pointing along `towards`
  void text(PlaneVector base, Anchor anchor, std::string words,
            double height = text_height);

  /// All that is on another, moved by so much; on one layer, or each on its own.
  void place(const Sheet &other, PlaneVector shift, std::optional<Layer> layer = {});

  const std::vector<Stroke>    &strokes() const { return strokes_; }
  const std::vector<ArrowHead> &heads() const { return heads_; }
  const std::vector<SheetText> &texts() const { return texts_; }
  Box bounds() const; ///< around everything, arcs by their ends and middles

  /// A complete SVG 1.1 document in millimetres; the title is what a viewer shows.
  std::string svg(std::string_view title, double width, double height) const;

private:
  Layer                  layer_ = Layer::sheet;
  std::vector<Stroke>    strokes_;
  std::vector<ArrowHead> heads_;
  std::vector<SheetText> texts_;
};
} // namespace throughbend
