#include "solver/fields/field_file.h"

#include "solver/record/field_names.h"

#include <deal.II/base/data_out_base.h>

#include <sstream>
#include <tuple>

namespace throughbend
{
namespace
{
struct Column
{
  NodalQuantity quantity;
  const char   *name, *unit;
};

template <int dim>
std::vector<Column> columns()
{
  std::vector<Column> list = {{NodalQuantity::stress_xx, field_names::stress_xx, "MPa"},
                              {NodalQuantity::stress_yy, field_names::stress_yy, "MPa"},
                              {NodalQuantity::stress_zz, field_names::stress_zz, "MPa"},
                              {NodalQuantity::stress_xy, field_names::stress_xy, "MPa"}};
  if (dim == 3)
  {
    list.push_back({NodalQuantity::stress_xz, field_names::stress_xz, "MPa"});
    list.push_back({NodalQuantity::stress_yz, field_names::stress_yz, "MPa"});
  }
  list.push_back({NodalQuantity::von_mises_stress, field_names::von_mises_stress, "MPa"});
  list.push_back({NodalQuantity::plastic_strain, field_names::plastic_strain, "1"});
  list.push_back({NodalQuantity::axial_strain, field_names::axial_strain, "1"});
  list.push_back({NodalQuantity::contact_pressure, field_names::contact_pressure, "MPa"});
  return list;
}

/// Rows of a patch: displacement, the columns, the zone, with flaws their lips, and where
/// the points are.
template <int dim>
dealii::DataOutBase::Patch<dim>
patch_of(const typename NodalFields<dim>::Cell &cell, const CouponModel<dim> &model,
         const NodalState &state, const std::vector<Column> &list, unsigned index)
{
  constexpr auto                  n_nodes = NodalFields<dim>::n_cell_nodes;
  const auto                      n_list  = static_cast<unsigned>(list.size());
  dealii::DataOutBase::Patch<dim> patch;
  patch.patch_index          = index;
  patch.reference_cell       = dealii::ReferenceCells::get_hypercube<dim>();
  patch.n_subdivisions       = 2;
  patch.points_are_available = true;
  const unsigned n_marks     = model.flaws().empty() ? 1 : 2;
  patch.data.reinit(dim + n_list + n_marks + dim, n_nodes);
  for (unsigned a = 0; a < n_nodes; ++a)
  {
    for (unsigned c = 0; c < dim; ++c)
    {
      const unsigned dof   = cell.dofs[a][c];
      const double   moved = state.u[dof];
      patch.data(c, a)     = static_cast<float>(moved);
      patch.data(dim + n_list + n_marks + c, a) =
          static_cast<float>(model.nodes()[dof][c] + moved);
    }
    const double *const values = &state.values[cell.places[a] * n_nodal_quantities];
    for (unsigned k = 0; k < n_list; ++k)
      patch.data(dim + k, a) =
          static_cast<float>(values[static_cast<std::size_t>(list[k].quantity)]);
    patch.data(dim + n_list, a) = static_cast<float>(cell.zone);
    if (n_marks > 1)
      patch.data(dim + n_list + 1, a) = static_cast<float>(cell.lips[a]);
  }
  return patch;
}

/// deal.II writes `Scalars="scalars"`, which names no array, and viewers then open the
/// shape in one colour. The head is told apart from the data by its brackets: base64 has
/// none.
std::string with_active_arrays(std::string text, const std::string &element)
{
  const std::string found = "<" + element + " Scalars=\"scalars\">";
  const std::size_t at    = text.find(found);
  if (at != std::string::npos)
    text.replace(at, found.size(),
                 "<" + element + " Scalars=\"" + field_names::axial_strain +
                     "\" Vectors=\"" + field_names::displacement + "\">");
  return text;
}

/// What deal.II's writers ask about the rows of a patch.
template <int dim>
struct Arrays
{
  using Range =
      std::tuple<unsigned, unsigned, std::string,
                 dealii::DataComponentInterpretation::DataComponentInterpretation>;

  std::vector<std::string>      names{dim, field_names::displacement}; ///< of each row
  std::vector<Range>            vectors;
  dealii::DataOutBase::VtkFlags flags;

  Arrays(const CouponModel<dim> &model, const std::vector<Column> &list)
      : vectors{{0, dim - 1, field_names::displacement,
                 dealii::DataComponentInterpretation::component_is_part_of_vector}}
  {
    flags.compression_level   = dealii::DataOutBase::VtkFlags::best_speed;
    flags.print_date_and_time = false;

    flags.physical_units[field_names::displacement] = "mm";
    for (const Column &column : list)
    {
      names.emplace_back(column.name);
      flags.physical_units[column.name] = column.unit;
    }
    names.emplace_back(field_names::zone);
    if (!model.flaws().empty())
      names.emplace_back(field_names::flaw_lip);
  }
};
} // namespace

template <int dim>
std::string field_file_text(const NodalFields<dim> &fields, const CouponModel<dim> &model,
                            const NodalState &state)
{
  const std::vector<Column>                    list = columns<dim>();
  std::vector<dealii::DataOutBase::Patch<dim>> patches;
  patches.reserve(fields.owned().size());
  for (const std::size_t cell : fields.owned())
    patches.push_back(patch_of<dim>(fields.cells()[cell], model, state, list,
                                    static_cast<unsigned>(patches.size())));

  Arrays<dim> arrays(model, list);
  arrays.flags.time = state.travel;
  std::ostringstream out;
  dealii::DataOutBase::write_vtu(patches, arrays.names, arrays.vectors, arrays.flags, out);
  return with_active_arrays(out.str(), "PointData");
}

template <int dim>
std::string field_parts_text(const CouponModel<dim>         &model,
                             const std::vector<std::string> &parts)
{
  const Arrays<dim>  arrays(model, columns<dim>());
  std::ostringstream out;
  dealii::DataOutBase::write_pvtu_record(out, parts, arrays.names, arrays.vectors,
                                         arrays.flags);
  std::string text = with_active_arrays(out.str(), "PPointData");
  // deal.II tells the date there, and the same run would write another file tomorrow.
  const std::size_t from = text.find("<!--"), to = text.find("-->\n");
  if (from != std::string::npos && to != std::string::npos)
    text.erase(from, to + 4 - from);
  return text;
}

template std::string field_file_text(const NodalFields<2> &, const CouponModel<2> &,
                                     const NodalState &);
template std::string field_file_text(const NodalFields<3> &, const CouponModel<3> &,
                                     const NodalState &);
template std::string field_parts_text(const CouponModel<2> &,
                                      const std::vector<std::string> &);
template std::string field_parts_text(const CouponModel<3> &,
                                      const std::vector<std::string> &);
} // namespace throughbend
