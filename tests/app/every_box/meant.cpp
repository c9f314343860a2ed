#include "tests/app/every_box/meant.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/engine/set_up_fields.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway::tests {
namespace {

using K = RecordKind;

/// Everything else may only hold what it is read as.
const std::map<K, std::set<std::string>> words_fields = {
    {K::build,
     {"name", "customer", "engine", "use", "fuel", "speed_range", "target_power", "scope",
      "exclusions", "state", "terms", "note", "job_number"}},
    {K::casting_number, {"position", "number", "date_code", "note"}},
    {K::promise, {"reason"}},
    {K::visit, {"reason", "found", "done"}},
    {K::hand_off, {"given_to", "signature", "service_dates", "note"}},
    {K::person, {"name", "initials", "role", "note"}},
    {K::customer, {"name", "address", "phone", "email", "note"}},
    {K::instrument, {"name", "measures", "resolution", "serial_number", "note"}},
    {K::product, {"name", "purpose", "note"}},
    {K::known_engine, {"name", "measured_by", "note"}},
    {K::part,
     {"item", "position", "size", "marking", "supplier", "order_number", "note", "drive",
      "lubricant", "condition", "failed"}},
    {K::waiver, {"reason", "waived_by"}},
    {K::cure, {"place", "note", "ended_note"}},
    {K::open_item, {"title", "position", "detail", "if_it_goes_wrong", "outcome"}},
    {K::decision, {"question", "choice", "reason"}},
    {K::approval, {"subject", "note", "by_whom", "manner"}},
    {K::worked_time, {"work"}},
    {K::account_line, {"text"}},
    {K::limit, {"source", "note"}},
    {K::reading, {"note"}},
    {K::sign_off, {"note"}},
    {K::note, {"text", "position"}},
    {K::photo, {"caption", "position"}},
    {K::shop_detail, {"content"}},
    {K::step, {"not_needed"}},
    {K::set_up, {"name"}},
    {K::shop_sheet_kind, {"title", "note"}},
    {K::shop_quantity, {"title"}},
    {K::shop_plan, {"title", "note"}},
};

/// A search that finds nothing, and boxes whose words are only used by what is pressed later.
const std::set<QString> silent_boxes = {
    "Filter",
    "Find",
    "Only builds with these words",
    "Position that new ones get", // goes with the note or photo that is kept
    "Given to",
    "Who signs for it",
    "To be seen again", // go with the book that is handed over
    "Why this variant", // with the variant that is kept
    "Altitude",         // is read with the file of the pull
};

const std::map<QString, QString> plausible_texts = {
    {"title", "Doubtful thread"},
    {"item", "Rod bolts"},
    {"text", "Line bored"},
    {"place", "end rails"},
    {"name", "Halden"},
    {"work", "assembly"},
    {"hours", "2:30"},
    {"question", "Which"},
    {"choice", "the thick ones"},
    {"amount", "12.50"},
    {"subject", "New guides"},
    {"outcome", "cured"},
    {"reason", "it was late"},
    {"number", "3970010"},
    {"full_minutes", "24 h"},
    {"position", "block"},
    {"promised", "2027-05-01"},
    {"by_whom", "Ada Brandvold"},
    {"gap_clock", "3"},
    {"gap_felt", ".008"},
    {"Name", "Halden"},
    {"Customer", "Ada Brandvold"},
    {"Engine", "Halden 402 V8"},
    {"firing_order", "1-5-3-6-2-4"},
    {"row_cylinders", "1 2 3 4 5 6"},
    {"row_valves", "E I I E E I I E E I I E"},
    {"bore", "4.125"},
    {"stroke", "3.75"},
    {"bank_angle", "60"},
    {"cam_above", "5.2"},
    {"cam_beside", "0"},
    {"field_name", "Halden"},
    {"field_content", "Halden Engines"},
    {"field_low", ".001"},
    {"damaged_file", "/nowhere/at all"},
    {"rescue_target", "/nowhere/else"},
    {"left_cylinders", "1 3 5 7"},
    {"left_valves", "EIIEEIIE"},
    {"right_cylinders", "2 4 6 8"},
    {"right_valves", "EIIEEIIE"},
    {"limit_low", ".001"},
    {"limit_source", "the maker"},
};

} // namespace

bool takes_any_words(const Edit& edit, const Act& act) {
    if (edit.record.kind == K::set_up && edit.field.find('/') != std::string::npos) {
        const FieldSpec* spec = field_spec(edit.field);
        return spec != nullptr && spec->kind == FieldKind::words;
    }
    if (edit.record.kind == K::reading && edit.field == "text") {
        const auto quantity = std::find_if(act.edits.begin(), act.edits.end(), [&](const Edit& e) {
            return e.record == edit.record && e.field == "quantity";
        });
        const Quantity* found = quantity == act.edits.end() || !quantity->after
                                    ? nullptr
                                    : find_quantity(*quantity->after);
        return found != nullptr && !is_numeric(found->form);
    }
    const auto kind = words_fields.find(edit.record.kind);
    return kind != words_fields.end() && kind->second.contains(edit.field);
}

QString words_of(const Edit& edit) {
    return QString("kind %1, field %2: “%3”")
        .arg(static_cast<int>(edit.record.kind))
        .arg(QString::fromStdString(edit.field),
             QString::fromStdString(edit.after.value_or("nothing")).left(60));
}

bool may_be_silent(const QString& box) {
    // A plan is drafted box by box, and kept or let go as a whole.
    return silent_boxes.contains(box.section(": ", -1)) || box.startsWith("menu, Stage plans") ||
           box == "Shop, Own limits: To" ||       // judged with what is measured and who says so
           box.contains("Rescue a damaged file"); // both files are read when it begins
}

bool is_tried_elsewhere(const QWidget& box) {
    static const std::set<QString> names = {
        // Of a step that isn't done; why is any words.
        "not_needed",
        // While something is being tried; a name is any words.
        "variant_name",
        // With a reading in hand, or a photo; a remark is any words.
        "reading_note", "photo_caption", "photo_position",
        // Of an engine given by what was measured: the other test comes there, to one row of
        // cylinders. Banks are read as a row is.
        "name", "firing_order", "bore", "stroke", "bank_angle", "cam_above", "cam_beside",
        "row_cylinders", "row_valves", "left_cylinders", "left_valves", "right_cylinders",
        "right_valves", "what_if_gasket_row", "measured_by", "measured_on"};
    return names.contains(box.objectName());
}

QString plausible(const QString& box) {
    const auto found = plausible_texts.find(box);
    return found == plausible_texts.end() ? QString() : found->second;
}

} // namespace rodway::tests
