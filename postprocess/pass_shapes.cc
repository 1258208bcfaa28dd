#include "postprocess/pass_shapes.h"

#include "inputs/field_names.h"

#include <fmt/core.h>

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkObject.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

struct Moment
{
  double      time = 0; ///< as the index has it [mm]
  std::string file;
};

/// What a .pvd lists, in the order of time; empty when it cannot be read.
std::vector<Moment> moments_of(const fs::path &index)
{
  std::vector<Moment> moments;
  try
  {
    boost::property_tree::ptree tree;
    boost::property_tree::read_xml(index.string(), tree);
    for (const auto &[name, item] : tree.get_child("VTKFile.Collection"))
      if (name == "DataSet")
        moments.push_back({item.get<double>("<xmlattr>.timestep"),
                           item.get<std::string>("<xmlattr>.file")});
  }
  catch (const boost::property_tree::ptree_error &)
  {
    return {};
  }
  std::stable_sort(moments.begin(), moments.end(),
                   [](const Moment &a, const Moment &b) { return a.time < b.time; });
  return moments;
}

/// The arrays of one .vtu that are looked at; null pointers when it cannot be used.
struct FieldFile
{
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  vtkUnstructuredGrid                 *grid    = nullptr;
  vtkDataArray                        *moved   = nullptr;
  vtkDataArray                        *axial   = nullptr;
  vtkDataArray                        *plastic = nullptr;
  vtkDataArray                        *zone    = nullptr;
  vtkDataArray                        *lip     = nullptr; ///< only with flaws

  explicit FieldFile(const fs::path &file)
  {
    if (!fs::exists(file) || !reader->CanReadFile(file.c_str()))
      return;
    reader->SetFileName(file.c_str());
    reader->Update();
    grid              = reader->GetOutput();
    vtkPointData &all = *grid->GetPointData();
    moved             = all.GetArray(field_names::displacement);
    axial             = all.GetArray(field_names::axial_strain);
    plastic           = all.GetArray(field_names::plastic_strain);
    zone              = all.GetArray(field_names::zone);
    lip               = all.GetArray(field_names::flaw_lip);
  }
  bool good() const { return grid && moved && axial && plastic && zone; }

  double travel(const double otherwise) const
  {
    vtkDataArray *const time = grid->GetFieldData()->GetArray("TIME");
    return time && time->GetNumberOfTuples() > 0 ? time->GetComponent(0, 0) : otherwise;
  }
};

/// Which points of the file are kept. A node is written once for every cell that has it,
/// with the very same coordinates; values differ only across borders of zones. The two lips
/// of a flaw stand in one place until it opens.
struct Thinning
{
  std::vector<vtkIdType> kept;

  Thinning(const FieldFile &file, PassShapes &into)
  {
    std::map<std::tuple<double, double, int, int>, int> known;
    const auto                                          place_of = [&](const vtkIdType id)
    {
      double p[3];
      file.grid->GetPoint(id, p);
      const int zone = static_cast<int>(std::lround(file.zone->GetComponent(id, 0)));
      const int lip =
          file.lip ? static_cast<int>(std::lround(file.lip->GetComponent(id, 0))) : 0;
      const auto [place, is_new] =
          known.try_emplace({p[0], p[1], zone, lip}, static_cast<int>(kept.size()));
      if (is_new)
      {
        kept.push_back(id);
        into.flat.push_back({p[0] - file.moved->GetComponent(id, 0),
                             p[1] - file.moved->GetComponent(id, 1)});
        into.zone.push_back(zone);
        into.lip.push_back(lip);
      }
      return place->second;
    };
    const auto add_cell = [&](vtkCell &quad)
    {
      std::array<int, 4> corners{};
      for (int i = 0; i < 4; ++i)
        corners[static_cast<std::size_t>(i)] = place_of(quad.GetPointId(i));
      into.cells.push_back(corners);
    };
    const auto in_middle_plane = [&](vtkCell &quad)
    {
      for (int i = 0; i < 4; ++i)
        if (std::abs(file.grid->GetPoint(quad.GetPointId(i))[2]) > 1e-6)
          return false;
      return true;
    };
    for (vtkIdType c = 0; c < file.grid->GetNumberOfCells(); ++c)
    {
      vtkCell *const cell = file.grid->GetCell(c);
      if (cell->GetCellDimension() == 2 && cell->GetNumberOfPoints() == 4)
        add_cell(*cell);
      else if (cell->GetCellDimension() == 3)
        for (int f = 0; f < cell->GetNumberOfFaces(); ++f)
          if (vtkCell *const face = cell->GetFace(f);
              face->GetNumberOfPoints() == 4 && in_middle_plane(*face))
            add_cell(*face);
    }
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

ModelPart part_of(const std::vector<Vec2> &flat)
{
  return std::any_of(flat.begin(), flat.end(), [](const Vec2 &p) { return p.x < -1e-4; })
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

Shape shape_of(const FieldFile &file, const std::vector<vtkIdType> &kept)
{
  Shape shape;
  for (const vtkIdType id : kept)
  {
    double p[3];
    file.grid->GetPoint(id, p);
    shape.points.push_back({p[0], p[1]});
    shape.axial_strain.push_back(file.axial->GetComponent(id, 0));
    shape.plastic_strain.push_back(file.plastic->GetComponent(id, 0));
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
      "fields/: {} of the {} shapes can be read; not there, or cut off: {}.{}",
      all ? "none" : fmt::format("{}", of - files.size()), of, list,
      all ? " No pictures and no animation." : "");
}

void read_fields(const fs::path &folder, const std::optional<ModelPart> part,
                 PassShapes &into)
{
  const std::vector<Moment> moments = moments_of(folder / "fields.pvd");
  if (moments.empty())
    into.missing.emplace_back(
        "fields/fields.pvd is not there or lists nothing: no pictures "
        "and no animation.");
  std::vector<vtkIdType>   kept;
  std::vector<std::string> unreadable;
  vtkIdType                n_points = 0;
  for (const Moment &moment : moments)
  {
    const FieldFile file(folder / moment.file);
    if (!file.good() || (n_points != 0 && file.grid->GetNumberOfPoints() != n_points))
    {
      unreadable.push_back(moment.file);
      continue;
    }
    if (n_points == 0)
    {
      n_points   = file.grid->GetNumberOfPoints();
      kept       = Thinning(file, into).kept;
      into.edges = single_edges(into.cells);
      into.part  = part.value_or(part_of(into.flat));
      if (into.part == ModelPart::right_half)
        into.edges.erase(std::remove_if(into.edges.begin(), into.edges.end(),
                                        [&](const auto &edge)
                                        { return on_the_cut(into, edge); }),
                         into.edges.end());
    }
    Shape shape  = shape_of(file, kept);
    shape.travel = file.travel(moment.time);
    shape.file   = moment.file;
    // The index shows the released coupon later than the travel at which the tools stand.
    if (moment.time > shape.travel + 1e-3 * (1 + shape.travel))
      shape.hold = Hold::released;
    into.shapes.push_back(std::move(shape));
  }
  if (!unreadable.empty())
    into.missing.push_back(unreadable_shapes(unreadable, moments.size()));
}

void read_tools(const fs::path &folder, PassShapes &into)
{
  constexpr int             plunger_role = 0; // as the .vtp files number it
  const std::vector<Moment> moments      = moments_of(folder / "tools.pvd");
  for (const Moment &moment : moments)
  {
    const fs::path               path = folder / moment.file;
    vtkNew<vtkXMLPolyDataReader> reader;
    if (!fs::exists(path) || !reader->CanReadFile(path.c_str()))
      continue;
    reader->SetFileName(path.c_str());
    reader->Update();
    vtkPolyData        &bodies = *reader->GetOutput();
    vtkDataArray *const role   = bodies.GetCellData()->GetArray("tool");
    if (!role)
      continue;
    for (vtkIdType c = 0; c < bodies.GetNumberOfCells(); ++c)
    {
      vtkCell *const body = bodies.GetCell(c);
      ToolShape      tool;
      tool.is_plunger = std::lround(role->GetComponent(c, 0)) == plunger_role;
      bool in_plane   = true; // extruded tools: their near face is enough
      for (vtkIdType i = 0; i < body->GetNumberOfPoints(); ++i)
      {
        double p[3];
        bodies.GetPoint(body->GetPointId(static_cast<int>(i)), p);
        in_plane = in_plane && std::abs(p[2]) < 1e-6;
        tool.outline.push_back({p[0], p[1] + (tool.is_plunger ? moment.time : 0)});
      }
      if (tool.is_plunger) // the file cuts its body off: let it reach on above the picture
      {
        const auto   higher = [](Vec2 a, Vec2 b) { return a.y < b.y; };
        const double top =
            std::max_element(tool.outline.begin(), tool.outline.end(), higher)->y;
        for (Vec2 &point : tool.outline)
          if (point.y > top - 1e-6)
            point.y += 2 * into.shapes.back().travel;
      }
      if (in_plane)
        into.tools.push_back(std::move(tool));
    }
    return; // the others show the same bodies further on
  }
  into.missing.emplace_back("tools/ holds no file that can be read: tools are not drawn.");
}
} // namespace

std::size_t PassShapes::nearest(const double travel) const
{
  std::size_t best = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    if (shapes[i].hold == Hold::loaded &&
        (std::abs(shapes[i].travel - travel) < std::abs(shapes[best].travel - travel)))
      best = i;
  return best;
}

std::size_t PassShapes::last_loaded() const
{
  std::size_t last = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    if (shapes[i].hold == Hold::loaded)
      last = i;
  return last;
}

PassShapes read_pass_shapes(const fs::path &folder, const std::optional<ModelPart> part)
{
  vtkObject::GlobalWarningDisplayOff(); // a broken file is named in the report instead
  PassShapes shapes;
  shapes.part = part.value_or(ModelPart::whole);
  read_fields(folder / "fields", part, shapes);
  if (!shapes.empty())
    read_tools(folder / "tools", shapes);
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
