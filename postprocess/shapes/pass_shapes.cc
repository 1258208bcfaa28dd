#include "postprocess/shapes/pass_shapes.h"

#include "inputs/text/input_error.h"
#include "inputs/text/run_file.h"
#include "postprocess/shapes/shape_file.h"
#include "postprocess/shapes/shape_index.h"
#include "postprocess/shapes/shape_parts.h"
#include "postprocess/shapes/xml_scan.h"
#include "solver/record/field_names.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

/// The arrays of one .vtu that are looked at. Of flaw_lip there are numbers only with
/// flaws.
struct FieldFile
{
  ShapeFile                  grid;
  const std::vector<double> &moved, &axial, &plastic, &zone, &lip;

  FieldFile(ShapeFile shape, const std::string &file)
      : grid(std::move(shape)), moved(needed(field_names::displacement, file)),
        axial(needed(field_names::axial_strain, file)),
        plastic(needed(field_names::plastic_strain, file)),
        zone(needed(field_names::zone, file)), lip(grid.arrays[field_names::flaw_lip])
  {
    for (const std::vector<double> *marks : {&zone, &lip})
      for (const double mark : *marks)
        if (mark != 0 && mark != 1 && mark != 2)
          throw InputError(
              fmt::format("{} cannot be read: zones and lips are 0, 1 or 2, and "
                          "it has {}. Push the case again.",
                          file, mark));
  }
  FieldFile(const FieldFile &)            = delete;
  FieldFile &operator=(const FieldFile &) = delete;

  double travel(const double otherwise) const
  {
    return grid.time.empty() ? otherwise : grid.time.front();
  }

private:
  const std::vector<double> &needed(const std::string &name, const std::string &file) const
  {
    if (!grid.has(name))
      throw InputError(file + " cannot be read: it lacks the array " + name +
                       ". Push the case again.");
    return grid.arrays.at(name);
  }
};

/// The shape of a .vtu, or of all the parts that a .pvtu names; nothing where a file is not
/// there.
std::optional<ShapeFile> grid_in(const fs::path &run, const fs::path &name)
{
  static const WantedArrays wanted = {{field_names::displacement, 3},
                                      {field_names::axial_strain, 1},
                                      {field_names::plastic_strain, 1},
                                      {field_names::zone, 1},
                                      {field_names::flaw_lip, 1}};
  const auto                text   = run_file_text(run, name, run_file_size::shape);
  if (!text)
    return std::nullopt;
  if (name.extension() != ".pvtu")
    return read_grid_file(*text, (run / name).string(), wanted);
  ShapeFile whole;
  for (const std::string &part : shape_part_files(*text, (run / name).string()))
  {
    const fs::path place     = name.parent_path() / part;
    const auto     part_text = run_file_text(run, place, run_file_size::shape);
    if (!part_text)
      return std::nullopt;
    const std::string file = (run / place).string();
    append_part(whole, read_grid_file(*part_text, file, wanted), file);
  }
  return whole;
}

/// Faces of a hexahedron by its corners, as the format orders them.
constexpr std::array<std::array<std::size_t, 4>, 6> hexahedron_faces = {
    {{0, 4, 7, 3}, {1, 2, 6, 5}, {0, 1, 5, 4}, {3, 7, 6, 2}, {0, 3, 2, 1}, {4, 5, 6, 7}}};

/// Which points of the file are kept. A node is written once for every cell that has it,
/// with the very same coordinates; values differ only across borders of zones. The two lips
/// of a flaw stand in one place until it opens.
struct Thinning
{
  std::vector<std::size_t> kept;

  Thinning(const FieldFile &file, PassShapes &into)
  {
    using Quad = std::array<std::size_t, 4>;
    std::map<std::tuple<double, double, int, int>, int> known;
    const auto                                          place_of = [&](const std::size_t id)
    {
      const auto &p    = file.grid.points[id];
      const int   zone = static_cast<int>(file.zone[id]);
      const int   lip  = file.lip.empty() ? 0 : static_cast<int>(file.lip[id]);
      const auto [place, is_new] =
          known.try_emplace({p[0], p[1], zone, lip}, static_cast<int>(kept.size()));
      if (is_new)
      {
        kept.push_back(id);
        into.flat.push_back({p[0] - file.moved[3 * id], p[1] - file.moved[3 * id + 1]});
        into.zone.push_back(zone);
        into.lip.push_back(lip);
      }
      return place->second;
    };
    const auto add_cell = [&](const Quad &quad)
    {
      std::array<int, 4> corners{};
      for (std::size_t i = 0; i < 4; ++i)
        corners[i] = place_of(quad[i]);
      into.cells.push_back(corners);
    };
    const auto in_middle_plane = [&](const Quad &quad)
    {
      return std::all_of(quad.begin(), quad.end(),
                         [&](const std::size_t id)
                         { return std::abs(file.grid.points[id][2]) <= 1e-6; });
    };
    for (const std::vector<std::size_t> &cell : file.grid.cells)
      if (cell.size() == 4)
        add_cell({cell[0], cell[1], cell[2], cell[3]});
      else
        for (const Quad &face : hexahedron_faces)
          if (const Quad quad = {cell[face[0]], cell[face[1]], cell[face[2]],
                                 cell[face[3]]};
              in_middle_plane(quad))
            add_cell(quad);
  }
};

/// Edges that belong to one cell only: points are apart for each zone, so these are the
/// outline and the borders of zones, and the cut of a half model.
std::vector<std::array<int, 2>> single_edges(const std::vector<std::array<int, 4>> &cells)
{
  std::map<std::array<int, 2>, int> uses;
  for (const std::array<int, 4> &cell : cells)
    for (std::size_t i = 0; i < 4; ++i)
    {
      std::array<int, 2> edge = {cell[i], cell[(i + 1) % 4]};
      std::sort(edge.begin(), edge.end());
      ++uses[edge];
    }
  std::vector<std::array<int, 2>> edges;
  for (const auto &[edge, count] : uses)
    if (count == 1)
      edges.push_back(edge);
  return edges;
}

ModelPart part_of(const std::vector<PlaneVector> &flat)
{
  return std::any_of(flat.begin(), flat.end(),
                     [](const PlaneVector &p) { return p.x < -1e-4; })
             ? ModelPart::whole
             : ModelPart::right_half;
}

/// Whether an edge lies on the cut of a half model and not on the lip of a flaw there.
bool on_the_cut(const PassShapes &shapes, const std::array<int, 2> &edge)
{
  return std::all_of(edge.begin(), edge.end(),
                     [&](const int point)
                     {
                       const auto i = static_cast<std::size_t>(point);
                       return shapes.lip[i] == 0 && std::abs(shapes.flat[i].x) < 1e-4;
                     });
}

Shape shape_of(const FieldFile &file, const std::vector<std::size_t> &kept,
               const SolidSurface &surface)
{
  Shape shape;
  for (const std::size_t id : kept)
  {
    const auto &p = file.grid.points[id];
    shape.points.push_back({p[0], p[1]});
    shape.axial_strain.push_back(file.axial[id]);
    shape.plastic_strain.push_back(file.plastic[id]);
  }
  for (const std::size_t id : surface.kept)
  {
    shape.solid.points.push_back(file.grid.points[id]);
    shape.solid.axial_strain.push_back(file.axial[id]);
    shape.solid.plastic_strain.push_back(file.plastic[id]);
  }
  return shape;
}

/// One line for all of them: a full disk cuts off many.
std::string unreadable_shapes(const std::vector<std::string> &files, const std::size_t of)
{
  constexpr std::size_t most = 4;
  std::string           list;
  for (std::size_t i = 0; i < std::min(files.size(), most); ++i)
    list += (i == 0 ? "" : ", ") + files[i];
  if (files.size() > most)
    list += fmt::format(" and {} more", files.size() - most);
  const bool all = files.size() == of;
  return fmt::format(
      "fields/: {} of the {} shapes can be read; missing or truncated: {}.{}",
      all ? "none" : fmt::format("{}", of - files.size()), of, list,
      all ? " No pictures and no animation." : "");
}

/// All shapes are held at once; a run of this program keeps some hundred thousand points.
void check_size(const fs::path &folder, const std::size_t points, const std::size_t shapes)
{
  constexpr std::size_t most = 25'000'000;
  if (points > most / shapes)
    throw InputError(fmt::format(
        "{}: {} shapes of {} points are too many for a report. Push the case with a "
        "larger output.field_spacing.",
        folder.string(), shapes, points));
}

/// The index of a folder of shapes; nothing where it is not there or cut off.
std::vector<ShapeMoment> moments_in(const fs::path &run, const fs::path &index)
{
  const auto text = run_file_text(run, index, run_file_size::index);
  try
  {
    return text ? shape_moments(*text, (run / index).string()) : std::vector<ShapeMoment>();
  }
  catch (const XmlCutOff &)
  {
    return {};
  }
}

void read_fields(const fs::path &run, const std::optional<ModelPart> part, PassShapes &into)
{
  const std::vector<ShapeMoment> moments = moments_in(run, "fields/fields.pvd");
  if (moments.empty())
    into.missing.emplace_back(
        "fields/fields.pvd is not there or lists nothing: no pictures "
        "and no animation.");
  std::vector<std::size_t> kept;
  std::vector<std::string> unreadable;
  std::size_t              n_points = 0;
  const auto               add      = [&](const ShapeMoment &moment, const FieldFile &file)
  {
    if (n_points != 0 && file.grid.points.size() != n_points)
      return false;
    if (n_points == 0)
    {
      n_points = file.grid.points.size();
      kept     = Thinning(file, into).kept;
      if (kept.empty())
        throw InputError((run / "fields" / moment.file).string() +
                         " holds no cell in the middle of the width. Push the case again.");
      into.edges   = single_edges(into.cells);
      into.part    = part.value_or(part_of(into.flat));
      into.surface = solid_surface(file.grid, file.moved, file.zone, file.lip,
                                   into.part == ModelPart::right_half ? CutAtMiddle::yes
                                                                      : CutAtMiddle::no);
      check_size(run / "fields", kept.size() + into.surface.kept.size(), moments.size());
      if (into.part == ModelPart::right_half)
        into.edges.erase(std::remove_if(into.edges.begin(), into.edges.end(),
                                        [&](const auto &edge)
                                        { return on_the_cut(into, edge); }),
                         into.edges.end());
    }
    Shape shape  = shape_of(file, kept, into.surface);
    shape.travel = file.travel(moment.time);
    shape.file   = moment.file;
    // The index shows the released coupon later than the travel at which the tools stand.
    if (moment.time > shape.travel + 1e-3 * (1 + shape.travel))
      shape.hold = Loading::released;
    into.shapes.push_back(std::move(shape));
    return true;
  };
  for (const ShapeMoment &moment : moments)
  {
    const fs::path name = fs::path("fields") / moment.file;
    bool           good = false;
    try
    {
      auto grid = grid_in(run, name);
      good      = grid && add(moment, FieldFile(std::move(*grid), (run / name).string()));
    }
    catch (const XmlCutOff &)
    {
      good = false;
    }
    if (!good)
      unreadable.push_back(moment.file);
  }
  if (!unreadable.empty())
    into.missing.push_back(unreadable_shapes(unreadable, moments.size()));
}

/// The outlines of one .vtp, which shows the tools at a travel.
std::vector<DrawnTool> tools_of(const ShapeFile &bodies, const double travel,
                                const double reach)
{
  constexpr double           plunger_role = 0; // as the files number it
  const std::vector<double> &role         = bodies.arrays.at("tool");
  std::vector<DrawnTool>     tools;
  double                     half_width = 0;
  for (const std::array<double, 3> &p : bodies.points)
    half_width = std::max(half_width, p[2]);
  for (std::size_t c = 0; c < bodies.cells.size(); ++c)
  {
    DrawnTool tool;
    tool.is_plunger = role[c] == plunger_role;
    tool.half_width = half_width;
    bool in_plane   = true; // extruded tools: their near face is enough
    for (const std::size_t corner : bodies.cells[c])
    {
      const auto &p = bodies.points[corner];
      in_plane      = in_plane && std::abs(p[2]) < 1e-6;
      tool.outline.push_back({p[0], p[1] + (tool.is_plunger ? travel : 0)});
    }
    if (tool.is_plunger) // the file cuts its body off: let it reach on above the picture
    {
      const auto   higher = [](PlaneVector a, PlaneVector b) { return a.y < b.y; };
      const double top =
          std::max_element(tool.outline.begin(), tool.outline.end(), higher)->y;
      for (PlaneVector &point : tool.outline)
        if (point.y > top - 1e-6)
          point.y += reach;
    }
    if (in_plane)
      tools.push_back(std::move(tool));
  }
  return tools;
}

void read_tools(const fs::path &run, PassShapes &into)
{
  for (const ShapeMoment &moment : moments_in(run, "tools/tools.pvd"))
  {
    const fs::path name = fs::path("tools") / moment.file;
    const auto     text = run_file_text(run, name, run_file_size::shape);
    if (!text)
      continue;
    try
    {
      const ShapeFile bodies =
          read_outline_file(*text, (run / name).string(), {{"tool", 1}});
      if (!bodies.has("tool"))
        continue;
      into.tools = tools_of(bodies, moment.time, 2 * into.shapes.back().travel);
      return; // the others show the same bodies further on
    }
    catch (const XmlCutOff &)
    {
      continue;
    }
  }
  into.missing.emplace_back("tools/ holds no file that can be read: tools are not drawn.");
}
} // namespace

std::size_t PassShapes::nearest(const double travel) const
{
  std::size_t best = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    if (shapes[i].hold == Loading::loaded &&
        (std::abs(shapes[i].travel - travel) < std::abs(shapes[best].travel - travel)))
      best = i;
  return best;
}

std::size_t PassShapes::last_loaded() const
{
  std::size_t last = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    if (shapes[i].hold == Loading::loaded)
      last = i;
  return last;
}

PassShapes read_pass_shapes(const fs::path &folder, const std::optional<ModelPart> part)
{
  PassShapes shapes;
  shapes.part = part.value_or(ModelPart::whole);
  read_fields(folder, part, shapes);
  if (!shapes.empty())
    read_tools(folder, shapes);
  return shapes;
}

std::vector<FacePoint> convex_face(const PassShapes &shapes, const Shape &shape)
{
  double low = 0;
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    low = i == 0 ? shapes.flat[i].y : std::min(low, shapes.flat[i].y);
  std::vector<std::size_t> on_face;
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    if (shapes.flat[i].y < low + 1e-3)
      on_face.push_back(i);
  std::vector<FacePoint> face;
  std::sort(on_face.begin(), on_face.end(),
            [&](std::size_t a, std::size_t b)
            {
              const double x = shapes.flat[a].x, y = shapes.flat[b].x;
              if (shapes.lip[a] * shapes.lip[b] != 0 && std::abs(x - y) < 1e-3)
                return shapes.lip[a] < shapes.lip[b]; // at the mouth of a flaw
              return x < y;
            });
  for (std::size_t k = 0; k < on_face.size(); ++k)
  {
    const std::size_t i = on_face[k];
    // Of a pair at a border, the first is that of the zone of the point before.
    if (k + 1 < on_face.size() && k > 0)
    {
      const std::size_t next = on_face[k + 1];
      if (shapes.flat[next].x - shapes.flat[i].x < 1e-3 &&
          shapes.zone[on_face[k - 1]] == shapes.zone[next] &&
          shapes.zone[i] != shapes.zone[next])
        std::swap(on_face[k], on_face[k + 1]);
    }
    face.push_back({shapes.flat[on_face[k]].x, shape.axial_strain[on_face[k]]});
  }
  if (shapes.part == ModelPart::right_half)
  {
    std::vector<FacePoint> whole;
    for (auto point = face.rbegin(); point != face.rend(); ++point)
      if (point->position > 1e-6)
        whole.push_back({-point->position, point->strain});
    whole.insert(whole.end(), face.begin(), face.end());
    face = std::move(whole);
  }
  return face;
}
} // namespace throughbend
