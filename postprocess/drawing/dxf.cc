#include "postprocess/drawing/dxf.h"

#include "inputs/units/exact_units.h"

#include <fmt/core.h>

#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

struct LayerEntry
{
  Layer       layer;
  const char *name;
  int         colour; ///< AutoCAD colour index: 1 red, 3 green, 5 blue, 7 black or white
};
constexpr std::array<LayerEntry, 12> layers = {{{Layer::sheet, "SHEET", 7},
                                                {Layer::plunger, "PLUNGER", 1},
                                                {Layer::shoulders, "SHOULDERS", 5},
                                                {Layer::frame, "FRAME", 3},
                                                {Layer::coupon, "COUPON", 7},
                                                {Layer::coupon_plan, "COUPON_PLAN", 7},
                                                {Layer::hatching, "HATCHING", 8},
                                                {Layer::breaks, "BREAKS", 8},
                                                {Layer::centre, "CENTRE", 8},
                                                {Layer::later, "LATER", 8},
                                                {Layer::dimensions, "DIMENSIONS", 7},
                                                {Layer::detail, "DETAIL", 8}}};

/// Dashes and gaps of a pen on paper [mm], a gap below 0; as in the SVG.
struct LineType
{
  Pen                 pen;
  const char         *name, *picture;
  std::vector<double> dashes;
};

const std::vector<LineType> &line_types()
{
  static const std::vector<LineType> types = {
      {Pen::thin, "CONTINUOUS", "Solid line", {}},
      {Pen::centre, "CENTRE", "____ _ ____ _", {6, -1, 0.6, -1}},
      {Pen::phantom, "PHANTOM", "____ _ _ ____ _ _", {4, -0.8, 0.6, -0.8, 0.6, -0.8}}};
  return types;
}

std::string_view type_name(const Pen pen)
{
  for (const LineType &type : line_types())
    if (type.pen == pen)
      return type.name;
  return line_types().front().name;
}

/// Group codes and their values, a line each.
class Groups
{
public:
  explicit Groups(const CadPlace &place)
      : place_(place),
        per_mm_(1 / (place.scale * (place.units == UnitSystem::us ? mm_per_inch : 1.)))
  {
  }

  void put(int code, std::string_view value)
  {
    text_ += fmt::format("{:3}\n{}\n", code, value);
  }
  void put(int code, int value) { put(code, std::to_string(value)); }
  void number(int code, double value) { put(code, fmt::format("{:.9f}", value + 0.)); }
  void length(int code, double on_paper) { number(code, on_paper * per_mm_); }

  void point(int code, PlaneVector on_sheet)
  {
    length(code, on_sheet.x - place_.origin.x);
    length(code + 10, place_.origin.y - on_sheet.y); // y points up
    number(code + 20, 0);
  }

  void entity(const char *kind, Layer layer)
  {
    put(0, kind);
    put(8, cad_name(layer));
  }

  std::string text() && { return std::move(text_); }

private:
  const CadPlace &place_;
  double          per_mm_; // units of the file for 1 mm on paper
  std::string     text_;
};

void put_tables(Groups &out)
{
  const auto table = [&](const char *name, std::size_t entries)
  {
    out.put(0, "TABLE");
    out.put(2, name);
    out.put(70, static_cast<int>(entries));
  };
  out.put(0, "SECTION");
  out.put(2, "TABLES");
  table("LTYPE", line_types().size());
  for (const LineType &type : line_types())
  {
    out.put(0, "LTYPE");
    out.put(2, type.name);
    out.put(70, 0);
    out.put(3, type.picture);
    out.put(72, 65); // "A" for aligned: the only one there is
    out.put(73, static_cast<int>(type.dashes.size()));
    double whole = 0;
    for (const double dash : type.dashes)
      whole += std::abs(dash);
    out.length(40, whole);
    for (const double dash : type.dashes)
      out.length(49, dash);
  }
  out.put(0, "ENDTAB");
  table("LAYER", layers.size() + 1);
  const auto layer = [&](const char *name, int colour)
  {
    out.put(0, "LAYER");
    out.put(2, name);
    out.put(70, 0);
    out.put(62, colour);
    out.put(6, "CONTINUOUS");
  };
  layer("0", 7);
  for (const LayerEntry &entry : layers)
    layer(entry.name, entry.colour);
  out.put(0, "ENDTAB");
  table("STYLE", 1);
  out.put(0, "STYLE");
  out.put(2, "STANDARD");
  out.put(70, 0);
  out.number(40, 0);   // height: each text has its own
  out.number(41, 0.8); // letters of this font are broad
  out.number(50, 0);
  out.put(71, 0);
  out.number(42, 1);
  out.put(3, "txt");
  out.put(4, "");
  out.put(0, "ENDTAB");
  out.put(0, "ENDSEC");
}

/// As seen, counter-clockwise from the x-axis [degrees], 0 to below 360.
double direction(const PlaneVector centre, const PlaneVector to)
{
  const double angle = std::atan2(centre.y - to.y, to.x - centre.x) * 180 / pi;
  return angle < 0 ? angle + 360 : angle;
}

bool same_place(const PlaneVector a, const PlaneVector b)
{
  return length(a - b) < 1e-6;
}

void put_line(Groups &out, const Stroke &s)
{
  out.entity("LINE", s.layer);
  if (s.pen == Pen::centre || s.pen == Pen::phantom)
    out.put(6, type_name(s.pen));
  out.point(10, s.from);
  out.point(11, s.to);
}

/// Arcs that go on in each other on one circle are one arc, or the whole circle. Arcs run
/// counter-clockwise in the file. Returns how many strokes it took.
std::size_t put_arc(Groups &out, const std::vector<Stroke> &strokes, const std::size_t at)
{
  const Stroke     &first  = strokes[at];
  const PlaneVector centre = first.centre();
  std::size_t       next   = at + 1;
  for (; next < strokes.size(); ++next)
  {
    const Stroke &s = strokes[next];
    if (s.radius <= 0 || std::abs(s.radius - first.radius) > 1e-9 ||
        s.layer != first.layer || s.pen != first.pen || s.clockwise != first.clockwise ||
        !same_place(s.from, strokes[next - 1].to) || !same_place(s.centre(), centre))
      break;
  }
  const PlaneVector end  = strokes[next - 1].to;
  const bool        full = next - at > 1 && same_place(end, first.from);
  out.entity(full ? "CIRCLE" : "ARC", first.layer);
  if (first.pen == Pen::centre || first.pen == Pen::phantom)
    out.put(6, type_name(first.pen));
  out.point(10, centre);
  out.length(40, first.radius);
  if (!full)
  {
    out.number(50, direction(centre, first.clockwise ? end : first.from));
    out.number(51, direction(centre, first.clockwise ? first.from : end));
  }
  return next - at;
}

void put_text(Groups &out, const SheetText &t)
{
  out.entity("TEXT", t.layer);
  out.point(10, t.at);
  out.length(40, t.height);
  out.put(1, cad_text(t.words));
  out.put(7, "STANDARD");
  if (t.anchor == Anchor::left)
    return;
  out.put(72, t.anchor == Anchor::middle ? 1 : 2);
  out.point(11, t.at);
}
} // namespace

std::string_view cad_name(const Layer layer)
{
  for (const LayerEntry &entry : layers)
    if (entry.layer == layer)
      return entry.name;
  return "0";
}

std::string cad_text(const std::string_view words)
{
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
  {
    const auto c = static_cast<unsigned char>(words[i]);
    if (c < 0x20 || c == 0x7F)
      continue;
    if (c == '%' && i + 1 < words.size() && words[i + 1] == '%')
      text += "%%%"; // two of them begin a code; three are one sign
    else if (c == '%' && i > 0 && words[i - 1] == '%')
      text += "%%%";
    else if (c == '^')
      text += "^ "; // else it makes a control character of the next sign
    else if (c == '\\' && i + 1 < words.size() && words[i + 1] == 'U')
      text += "\\U+005C"; // else it begins a code
    else if (c < 0x80)
      text += static_cast<char>(c);
    else if (c >= 0xC0)
    {
      const int more = c >= 0xF0 ? 3 : c >= 0xE0 ? 2 : 1;
      unsigned  sign = c & (0x3Fu >> more);
      int       read = 0;
      for (; read < more && i + 1 < words.size() && (words[i + 1] & 0xC0) == 0x80; ++read)
        sign = (sign << 6u) | (static_cast<unsigned char>(words[++i]) & 0x3Fu);
      const bool whole = read == more && sign >= 0xA0 && sign <= 0xFFFF; // four digits
      text += whole ? fmt::format("\\U+{:04X}", sign) : "?";
    }
  }
  return text;
}

std::string dxf(const Sheet &sheet, const CadPlace &place, const std::string_view comment)
{
  Groups out(place);
  out.put(999, comment);
  const Box box = sheet.bounds();
  out.put(0, "SECTION");
  out.put(2, "HEADER");
  out.put(9, "$ACADVER");
  out.put(1, "AC1009"); // release 12
  for (const char *corner : {"$EXTMIN", "$EXTMAX"})
  {
    out.put(9, corner);
    out.point(10, corner == std::string_view("$EXTMIN")
                      ? PlaneVector{box.low.x, box.high.y}
                      : PlaneVector{box.high.x, box.low.y});
  }
  out.put(0, "ENDSEC");
  put_tables(out);
  out.put(0, "SECTION");
  out.put(2, "ENTITIES");
  const std::vector<Stroke> &strokes = sheet.strokes();
  for (std::size_t i = 0; i < strokes.size();)
    if (strokes[i].radius > 0)
      i += put_arc(out, strokes, i);
    else
      put_line(out, strokes[i++]);
  for (const ArrowHead &head : sheet.heads())
  {
    const std::array<PlaneVector, 3> corners = {head.tip, head.left, head.right};
    for (std::size_t i = 0; i < 3; ++i)
      put_line(out, {corners[i], corners[(i + 1) % 3], 0, false, Pen::thin, head.layer});
  }
  for (const SheetText &text : sheet.texts())
    put_text(out, text);
  out.put(0, "ENDSEC");
  out.put(0, "EOF");
  return std::move(out).text();
}
} // namespace throughbend
