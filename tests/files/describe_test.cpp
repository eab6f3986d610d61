// docs/ says what the field tables say. With KERFDRAFT_UPDATE=1 in the environment the files are written
// instead.
#include "files/describe.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "base/units.h"
#include "files/json.h"
#include "files/project_fields.h"
#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

bool update() {
  const char* const wish = std::getenv("KERFDRAFT_UPDATE");
  return wish != nullptr && std::string_view(wish) == "1";
}

void expectFile(const std::filesystem::path& path, const std::string& text) {
  if (update()) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
  }
  EXPECT_TRUE(textOf(path) == text)
      << path << " is not what the field tables say; run the test with KERFDRAFT_UPDATE=1";
}

/// Every range of every table must be two quantities of the field's kind, the least below the greatest.
template <class T>
void checkRange(const T& value, const FieldInfo& info);

template <Tabled S>
void checkTable() {
  EXPECT_FALSE(Table<S>::kDoc.empty());
  const S usual{};
  std::vector<std::string_view> keys;
  forEachField<S>([&](const auto& field) {
    EXPECT_FALSE(field.info.doc.empty()) << field.info.key;
    EXPECT_EQ(field.info.doc.back(), '.') << field.info.key;
    EXPECT_EQ(field.info.key.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos);
    EXPECT_EQ(std::count(keys.begin(), keys.end(), field.info.key), 0) << field.info.key;
    keys.push_back(field.info.key);
    checkRange(usual.*field.member, field.info);
  });
}

template <class T>
void checkRange(const T& value, const FieldInfo& info) {
  if constexpr (IsGiven<T>) {
    constexpr base::Kind kKind = GivenTraits<T>::Quantity::kKind;
    const auto least = base::parseQuantity(kKind, info.limits.range.least);
    const auto greatest = base::parseQuantity(kKind, info.limits.range.greatest);
    ASSERT_TRUE(least) << info.key << ": " << least.error().text();
    ASSERT_TRUE(greatest) << info.key << ": " << greatest.error().text();
    EXPECT_LT(*least, *greatest) << info.key;
  } else if constexpr (IsOptional<T>) {
    checkRange(typename OptionalTraits<T>::Value{}, info);
  } else {
    EXPECT_TRUE(info.limits.range.least.empty()) << info.key << " has a range that nothing looks at";
    if constexpr (IsList<T>) {
      if constexpr (Tabled<typename ListTraits<T>::Item>) {
        checkTable<typename ListTraits<T>::Item>();
      }
    } else if constexpr (Tabled<T>) {
      checkTable<T>();
    } else if constexpr (std::is_same_v<T, shop::DuctEnd>) {
      checkTable<shop::PortRef>();
      checkTable<shop::OnCorner>();
      checkTable<shop::FreeAir>();
    }
    (void)value;
  }
}

}  // namespace

TEST(FieldTables, EveryQuantityHasARangeAndEveryKeyADoc) {
  checkTable<shop::Project>();
}

TEST(FieldTables, TheSchemaInDocsIsTheirs) {
  expectFile(sourcePath("docs/schema/kerfdraft-1.schema.json"), projectSchema());
}

TEST(FieldTables, ThePageInDocsHasTheirTables) {
  const auto path = sourcePath("docs/format.md");
  const std::string page = withFormatTables(textOf(path));
  ASSERT_FALSE(page.empty()) << "the markers are missing";
  expectFile(path, page);
}

TEST(FieldTables, APageWithoutMarkersIsNotTouched) {
  EXPECT_EQ(withFormatTables("# A page\n"), "");
}

TEST(FieldTables, TheSchemaNamesOnlyWhatItDefines) {
  const auto schema = parseJson(projectSchema(), "schema");
  ASSERT_TRUE(schema);
  const Json* defs = schema->find("$defs");
  std::size_t references = 0;
  const auto walk = [&](const auto& self, const Json& json) -> void {
    if (const Json* ref = json.find("$ref"); ref != nullptr) {
      ++references;
      const std::string_view prefix = "#/$defs/";
      ASSERT_EQ(ref->text.rfind(prefix, 0), 0U);
      EXPECT_NE(defs->find(std::string_view(ref->text).substr(prefix.size())), nullptr) << ref->text;
    }
    for (const Json& item : json.items) {
      self(self, item);
    }
  };
  walk(walk, *schema);
  EXPECT_GT(references, 100U);
}

}  // namespace kerfdraft::files
