// Shapes that ranks write in parts, read back with VTK's own readers: together they hold
// the cells, places and numbers that one rank alone writes into one file.

#include "solver/fields/field_writer.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/solver/pass/resume_cases.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPUnstructuredGridReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

using namespace throughbend;
namespace fs = std::filesystem;

namespace
{
/// By place on the flat coupon [0.001 mm] and zone: all numbers of a point.
using Points = std::map<std::tuple<long, long, long, int>, std::vector<double>>;

struct ReadShape
{
  vtkIdType                cells = 0, points = 0;
  std::vector<std::string> arrays;
  Points                   values;
};

template <class Reader>
ReadShape read_shape(const fs::path &file)
{
  INFO(file);
  vtkNew<Reader> reader;
  REQUIRE(reader->CanReadFile(file.c_str()) == 1);
  reader->SetFileName(file.c_str());
  reader->Update();
  REQUIRE(reader->GetErrorCode() == 0);
  vtkUnstructuredGrid *const grid = reader->GetOutput();
  vtkPointData *const        data = grid->GetPointData();
  REQUIRE(data->GetScalars() != nullptr);
  CHECK(std::string(data->GetScalars()->GetName()) == "strain_axial_log");
  vtkDataArray *const moved = data->GetArray("displacement_mm");
  REQUIRE(moved != nullptr);

  ReadShape shape{grid->GetNumberOfCells(), grid->GetNumberOfPoints(), {}, {}};
  for (int k = 0; k < data->GetNumberOfArrays(); ++k)
    shape.arrays.emplace_back(data->GetArrayName(k));
  for (vtkIdType i = 0; i < shape.points; ++i)
  {
    double now[3];
    grid->GetPoint(i, now);
    const auto flat = [&](int d)
    { return std::lround(1000 * (now[d] - moved->GetComponent(i, d))); };
    auto &point =
        shape.values[{flat(0), flat(1), flat(2),
                      static_cast<int>(data->GetArray("zone")->GetComponent(i, 0))}];
    point.assign(now, now + 3);
    for (int k = 0; k < data->GetNumberOfArrays(); ++k)
      for (int c = 0; c < data->GetArray(k)->GetNumberOfComponents(); ++c)
        point.push_back(data->GetArray(k)->GetComponent(i, c));
  }
  return shape;
}

/// `folder` is null on ranks that only give their parts.
template <int dim>
void push(const Case &c, const RunFolder *folder, MPI_Comm communicator)
{
  PassSimulation<dim> pass(set_up(c), communicator);
  FieldWriter<dim>    writer(folder, pass.model(), c.output.field_spacing);
  pass.attach(writer);
  pass.run();
}

std::vector<std::string> names_in(const fs::path &folder, const std::string &ending)
{
  std::vector<std::string> names;
  for (const auto &entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ending)
      names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

void check_same(const ReadShape &whole, const ReadShape &parts)
{
  CHECK(parts.cells == whole.cells);
  CHECK(parts.points == whole.points);
  CHECK(parts.arrays == whole.arrays);
  REQUIRE(parts.values.size() == whole.values.size());
  std::vector<double> largest, apart;
  for (const auto &[place, expected] : whole.values)
  {
    const auto found = parts.values.find(place);
    REQUIRE(found != parts.values.end());
    largest.resize(expected.size());
    apart.resize(expected.size());
    for (std::size_t k = 0; k < expected.size(); ++k)
    {
      largest[k] = std::max(largest[k], std::abs(expected[k]));
      apart[k]   = std::max(apart[k], std::abs(expected[k] - found->second[k]));
    }
  }
  // The files hold single precision.
  for (std::size_t k = 0; k < largest.size(); ++k)
  {
    INFO("number " << k << " of a point, largest " << largest[k]);
    CHECK(apart[k] <= 3e-7 * largest[k]);
  }
}

template <int dim>
void compare(const std::string &overrides)
{
  const Case c = resume_case("--output.field_spacing;2 mm;--mesh.layers;2;--mesh.cell_size;"
                             "8 mm;--solver.residual_tolerance;1e-9;--weld.width;8 mm;" +
                             overrides);
  int        rank = 0, n_ranks = 1;
  MPI_Comm_rank(MPI_COMM_WORLD, &rank);
  MPI_Comm_size(MPI_COMM_WORLD, &n_ranks);
  if (rank > 0)
  {
    push<dim>(c, nullptr, MPI_COMM_WORLD);
    return;
  }
  const ScratchFolder scratch;
  const RunFolder     alone(scratch / "alone", ExistingRun::refuse),
      shared(scratch / "shared", ExistingRun::refuse);
  push<dim>(c, &alone, MPI_COMM_SELF);
  push<dim>(c, &shared, MPI_COMM_WORLD);

  const std::vector<std::string> shapes = names_in(alone.fields(), ".vtu");
  REQUIRE(shapes.size() > 2);
  const bool one = n_ranks == 1;
  CHECK(names_in(shared.fields(), one ? ".vtu" : ".pvtu") == shapes);
  if (!one)
    CHECK(names_in(shared.fields(), ".vtu").size() ==
          shapes.size() * static_cast<std::size_t>(n_ranks));
  for (const std::string &shape : shapes)
  {
    INFO(shape);
    const auto expected =
        read_shape<vtkXMLUnstructuredGridReader>(alone.fields() / (shape + ".vtu"));
    if (one)
      CHECK(content(shared.fields() / (shape + ".vtu")) ==
            content(alone.fields() / (shape + ".vtu")));
    else
      check_same(expected, read_shape<vtkXMLPUnstructuredGridReader>(shared.fields() /
                                                                     (shape + ".pvtu")));
  }
}
} // namespace

TEST_CASE("Parts that ranks write make up the shape that one rank writes", "[mpi]")
{
  compare<2>("--coupon.offset;3 mm;--ram.stroke;8 mm");
  compare<3>("--coupon.width;38 mm;--mesh.dimension;3;--ram.stroke;6 mm");
}
