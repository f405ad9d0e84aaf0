#include <functional>
#include <map>

#include "libs/formats/xlsx_reading.h"
#include "libs/formats/xml_reader.h"

namespace hw::formats {
namespace {

constexpr std::string_view no_workbook =
    "this is no workbook that can be read; open it and save it as XLSX (Office Open XML) or CSV";

// Hears the tags of a document that has everything in its attributes.
class TagListener : public XmlHandler {
 public:
  using Heard = std::function<void(std::string_view name, const XmlAttributes& attributes)>;
  explicit TagListener(Heard heard) : heard_(std::move(heard)) {}
  void start(XmlReader&, const XmlName& name, const XmlAttributes& attributes) override {
    heard_(name.local, attributes);
  }
  void text(XmlReader&, std::string_view) override {}
  void end(XmlReader&, const XmlName&) override {}

 private:
  Heard heard_;
};

Result<void> listen_to(const ZipArchive& archive, const std::string& part, TagListener::Heard heard) {
  HW_TAKE(source, archive.file(part));
  TagListener listener(std::move(heard));
  return read_xml(*source, listener);
}

std::string folder_of(const std::string& part) { return part.substr(0, part.rfind('/') + 1); }

// "xl/worksheets/sheet1.xml" of "worksheets/sheet1.xml", "/xl/worksheets/sheet1.xml" or "../xl/..." in the folder
// "xl/".
std::string part_named(const std::string& folder, std::string_view target) {
  if (target.starts_with('/')) return std::string(target.substr(1));
  std::string from = folder;
  while (target.starts_with("../")) {
    target.remove_prefix(3);
    from = folder_of(from.substr(0, from.empty() ? 0 : from.size() - 1));
  }
  return from + std::string(target);
}

struct Relation {
  std::string type;  // the last word of its address: "worksheet", so that both editions of the standard are read
  std::string part;
};

// By their ids.
Result<std::map<std::string, Relation>> relations_of(const ZipArchive& archive, const std::string& part) {
  const std::string folder = folder_of(part);
  std::map<std::string, Relation> relations;
  HW_TRY(listen_to(archive, folder + "_rels/" + part.substr(folder.size()) + ".rels",
                   [&](std::string_view name, const XmlAttributes& attributes) {
                     if (name != "Relationship" || attributes.find("TargetMode") == "External") return;
                     const std::string_view type = attributes.find("Type").value_or("");
                     relations[std::string(attributes.find("Id").value_or(""))] = {
                         std::string(type.substr(type.rfind('/') + 1)),
                         part_named(folder, attributes.find("Target").value_or(""))};
                   }));
  return relations;
}

const Relation* relation_of_type(const std::map<std::string, Relation>& relations, std::string_view type) {
  for (const auto& [id, relation] : relations) {
    if (relation.type == type) return &relation;
  }
  return nullptr;
}

// The id stands in another namespace, whose prefix is anybody's choice.
std::string relation_id(const XmlAttributes& attributes) {
  for (const XmlAttribute& attribute : attributes) {
    if (attribute.name.local == "id" && !attribute.name.prefix.empty()) return std::string(attribute.value);
  }
  return "";
}

}  // namespace

Result<WorkbookParts> find_workbook_parts(const ZipArchive& archive) {
  if (!archive.has("_rels/.rels")) return refuse(ErrorCode::bad_input, "{}", no_workbook);
  HW_TAKE(roots, relations_of(archive, ""));
  const Relation* book = relation_of_type(roots, "officeDocument");
  if (book == nullptr || !book->part.ends_with(".xml") || !archive.has(book->part)) {
    return refuse(ErrorCode::bad_input, "{}", no_workbook);
  }
  HW_TAKE(relations, relations_of(archive, book->part));
  WorkbookParts parts;
  HW_TRY(listen_to(archive, book->part, [&](std::string_view name, const XmlAttributes& attributes) {
    const bool is_hidden = attributes.find("state").value_or("visible") != "visible";
    if (name != "sheet" || is_hidden) return;
    const auto relation = relations.find(relation_id(attributes));
    if (relation != relations.end() && relation->second.type == "worksheet") {
      parts.sheets.push_back({std::string(attributes.find("name").value_or("")), relation->second.part});
    }
  }));
  if (const Relation* texts = relation_of_type(relations, "sharedStrings")) parts.shared_texts = texts->part;
  if (parts.sheets.empty()) return refuse(ErrorCode::bad_input, "{}", no_workbook);
  return parts;
}

}  // namespace hw::formats
