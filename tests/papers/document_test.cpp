// Blocks become pages: nothing of a person's text turns into markup, every block keeps its meaning.
#include "papers/document.h"

#include <gtest/gtest.h>

#include "paper_stage.h"
#include "papers/html.h"

namespace kerfdraft::papers {
namespace {

using tests::count;

Document small() {
  Document document;
  document.shop = "Shop <b> & \"Sons\"";
  document.kind = "A paper";
  document.first_line = {"2026-01-15", "", "predicted"};
  return document;
}

TEST(Html, TextOfAPersonIsNeverMarkup) {
  Document document = small();
  document.note = "</style><script>alert(1)</script>";
  document.blocks.push_back(Heading{2, "a < b"});
  document.blocks.push_back(Text{headed("x & y", "<i>z</i>")});
  document.blocks.push_back(Caution{"<u>", {plain("&amp;")}});
  const std::string html = toHtml(document);
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("<u>"), std::string::npos);
  EXPECT_NE(html.find("&lt;i&gt;z&lt;/i&gt;"), std::string::npos);
  EXPECT_NE(html.find("&amp;amp;"), std::string::npos);
  EXPECT_EQ(tests::tagFault(html), "");
}

TEST(Html, TheFootOfAPageCannotLeaveTheStyle) {
  Document document = small();
  document.shop = "</style><img src=x>\\\"";
  const std::string html = toHtml(document);
  EXPECT_EQ(count(html, "</style>"), 1U);
  EXPECT_EQ(html.find("<img"), std::string::npos);
}

TEST(Html, BrokenBytesBecomeASign) {
  Document document = small();
  document.blocks.push_back(
      Text{plain("a\xFF\x01"
                 "b")});
  EXPECT_NE(toHtml(document).find("a\xEF\xBF\xBD b"), std::string::npos);
}

TEST(Html, PaperFollowsTheUnits) {
  Document document = small();
  EXPECT_NE(toHtml(document).find("size:Letter"), std::string::npos);
  document.units = base::UnitSystem::Metric;
  EXPECT_NE(toHtml(document).find("size:A4"), std::string::npos);
}

TEST(Html, ATableHasScopesAndUnitsInItsHead) {
  Document document = small();
  document.units = base::UnitSystem::Metric;
  Table table;
  table.columns = {{"machine"}, {"air", Align::Right, base::Kind::VolumeFlow}};
  table.rows = {{{"T1"}, {{}, 0.1}}, {{""}, {}}};
  document.blocks.push_back(table);
  const std::string html = toHtml(document);
  EXPECT_NE(html.find("<th scope=\"col\" class=\"r\">air, m³/h</th>"), std::string::npos);
  EXPECT_NE(html.find("<th scope=\"row\">T1</th><td class=\"r\">360</td>"), std::string::npos)
      << html.substr(html.find("<tbody"));
  EXPECT_NE(html.find("<tr><td></td><td class=\"r\"></td></tr>"), std::string::npos);
}

TEST(Html, SeveritiesAreWordsToo) {
  for (const judge::Severity severity :
       {judge::Severity::Severe, judge::Severity::Serious, judge::Severity::Caution, judge::Severity::Note}) {
    Document document = small();
    document.blocks.push_back(FindingBox{severity, "Title", "What"});
    EXPECT_NE(toHtml(document).find("</b>" + std::string(judge::toText(severity)) + "</p>"),
              std::string::npos);
  }
}

TEST(Html, AFigureIsNamedForWhoCannotSeeIt) {
  Document document = small();
  Figure figure;
  figure.picture.width_mm = 10;
  figure.picture.height_mm = 10;
  figure.picture.description = "A square.";
  document.blocks.push_back(figure);
  document.blocks.push_back(figure);
  const std::string html = toHtml(document);
  EXPECT_EQ(count(html, "<figure role=\"group\" aria-label=\"A square.\">"), 2U);
  EXPECT_EQ(tests::tagFault(html), "");
}

TEST(Html, ContentsNameTheChapters) {
  Document document = small();
  document.contents = true;
  for (const char* title : {"One", "Two", "Three"}) {
    document.blocks.push_back(Heading{2, title});
  }
  const std::string html = toHtml(document);
  EXPECT_NE(html.find("<a href=\"#s3\">Three</a>"), std::string::npos);
  EXPECT_NE(html.find("<h2 id=\"s3\">Three</h2>"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::papers
