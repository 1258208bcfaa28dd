#pragma once
// The page of a study: what was asked, what was found, charts, tables, and every pass to
// look at. One HTML text that needs no other file. Also the class page, and the pictures
// for a paper.

#include "inputs/units/units.h"
#include "postprocess/study/drawing.h"
#include "solver/study/file/study_record.h"

#include <string>
#include <vector>

namespace throughbend
{
struct StudyPage
{
  std::string              page;  ///< the HTML
  std::vector<std::string> notes; ///< what is incomplete, for the terminal
};

StudyPage make_study_page(const StudyRecord &record, UnitSystem first);

/// Sliders over one to three keys of a map. Throws InputError for a study that has none.
StudyPage make_class_page(const StudyRecord &record, UnitSystem first);

/// A chart of the study under the name of its file, without its ending.
struct StudyPicture
{
  std::string name;
  Drawing     drawing;
};
std::vector<StudyPicture> study_pictures(const StudyRecord &record, UnitSystem first);
} // namespace throughbend
