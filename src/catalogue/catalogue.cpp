// Loading of the layers, references between tables, search.
#include "catalogue/catalogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "catalogue/embedded.h"
#include "catalogue/forms.h"
#include "catalogue/near_keys.h"

namespace kerfdraft::catalogue {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

std::string lowered(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

std::vector<std::string> words(std::string_view text) {
  std::vector<std::string> list;
  std::string word;
  for (const char c : lowered(text) + ' ') {
    if (c == ' ' || c == '\t' || c == '\n') {
      if (!word.empty()) {
        list.push_back(std::move(word));
      }
      word.clear();
    } else {
      word += c;
    }
  }
  return list;
}

}  // namespace

Result<Catalogue> Catalogue::shipped() {
  Catalogue catalogue;
  const std::span<const EmbeddedFile> files = embeddedFiles();
  for (const TableForm& form : forms()) {
    const std::string file = std::string(form.name) + ".csv";
    const auto found =
        std::find_if(files.begin(), files.end(), [&](const EmbeddedFile& f) { return f.name == file; });
    base::check(found != files.end(), "a table's file was left out of the build");
    Result<std::shared_ptr<const Table>> table =
        Table::read(form, nullptr, Layer::Shipped, found->text, "data/" + file);
    if (!table) {
      return Failure(table.error());
    }
    catalogue.tables_.push_back(std::move(*table));
  }
  if (const Result<void> sound = catalogue.checkReferences(); !sound) {
    return Failure(sound.error());
  }
  return catalogue;
}

Result<Catalogue> Catalogue::with(Layer layer, std::span<const TableText> texts) const {
  Catalogue catalogue = *this;
  for (const TableText& given : texts) {
    const Result<const Table*> below = catalogue.table(given.table);
    if (!below) {
      return fail(below.error().code, below.error().message, given.file);
    }
    Result<std::shared_ptr<const Table>> table =
        Table::read((*below)->form(), *below, layer, given.text, given.file);
    if (!table) {
      return Failure(table.error());
    }
    const auto place = std::find_if(catalogue.tables_.begin(), catalogue.tables_.end(),
                                    [&](const auto& t) { return t.get() == *below; });
    *place = std::move(*table);
  }
  if (const Result<void> sound = catalogue.checkReferences(); !sound) {
    return Failure(sound.error());
  }
  return catalogue;
}

Result<void> Catalogue::checkReferences() const {
  for (const auto& from : tables_) {
    for (const Column& column : from->form().columns) {
      if (column.refers_to.empty()) {
        continue;
      }
      const Result<const Table*> to = table(column.refers_to);
      base::check(to.has_value(), "a column refers to a table that is not there");
      for (const Row& row : from->rows()) {
        const std::string& key = from->cell(row, column.name).text;
        if (key.empty()) {
          continue;
        }
        if (const Result<const Row*> found = (*to)->row(key); !found) {
          return fail(ErrorCode::Reference, found.error().message,
                      fmt::format("{}, column {}", row.where, column.name));
        }
      }
    }
  }
  return {};
}

Result<const Table*> Catalogue::table(std::string_view name) const {
  std::vector<std::string> names;
  for (const auto& t : tables_) {
    if (t->form().name == name) {
      return t.get();
    }
    names.emplace_back(t->form().name);
  }
  return fail(ErrorCode::Reference,
              fmt::format("there is no table \"{}\"{}", name.substr(0, 60), nearKeysSentence(name, names)));
}

Result<const Row*> Catalogue::row(std::string_view table_name, std::string_view key) const {
  return table(table_name).and_then([&](const Table* t) { return t->row(key); });
}

Result<Curve> Catalogue::curve(std::string_view table_name, std::string_view column) const {
  return table(table_name).and_then([&](const Table* t) { return t->curve(column); });
}

std::vector<Hit> Catalogue::search(std::string_view text) const {
  std::vector<Hit> hits;
  const std::vector<std::string> wanted = words(text);
  if (wanted.empty()) {
    return hits;
  }
  for (const auto& t : tables_) {
    for (const Row& row : t->rows()) {
      std::string all(t->form().name);
      for (const std::string& cell : rowTexts(row)) {
        all += '\n' + lowered(cell);
      }
      if (std::all_of(wanted.begin(), wanted.end(),
                      [&](const std::string& word) { return all.find(word) != std::string::npos; })) {
        hits.push_back({t.get(), &row});
      }
    }
  }
  return hits;
}

std::vector<std::string> columnTitles(const Table& table) {
  std::vector<std::string> titles = {"key", "name"};
  for (const Column& column : table.form().columns) {
    titles.emplace_back(column.name);
  }
  titles.insert(titles.end(), {"source", "status", "note"});
  return titles;
}

std::vector<std::string> rowTexts(const Row& row) {
  std::vector<std::string> texts = {row.key, row.name};
  for (const Cell& cell : row.cells) {
    texts.push_back(cell.text);
  }
  texts.insert(texts.end(), {row.source, std::string(base::toText(row.status)), row.note});
  return texts;
}

std::string rowRef(const Table& table, const Row& row) {
  return std::string(table.form().name) + '/' + row.key;
}

}  // namespace kerfdraft::catalogue
