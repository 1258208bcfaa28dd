#pragma once
// The readable files of postprocess/page, held by the program.

#include <string_view>

namespace throughbend
{
std::string_view page_html();   ///< the whole page
std::string_view run_html();    ///< one run
std::string_view viewer_html(); ///< its animation
std::string_view entry_html();  ///< one run in an index
std::string_view page_css();
std::string_view index_css(); ///< what an index needs beyond that
std::string_view page_js();
std::string_view solid_html();     ///< where a body with width is turned
std::string_view solid_js();       ///< draws it, with three_js
std::string_view three_js();       ///< third_party/three as an object `three`
std::string_view study_html();     ///< the body of a study's page
std::string_view class_html();     ///< the body of its class page
std::string_view pass_view_html(); ///< where either draws a pass
std::string_view study_css();      ///< what both need beyond page_css
std::string_view study_view_js();  ///< draws a pass of a study
std::string_view study_js();
std::string_view class_js();
std::string_view lesson_page_html(); ///< questions, or answers, to print
std::string_view lesson_css();
} // namespace throughbend
