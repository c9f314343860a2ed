#include "app/shop/panel_kinds.h"

#include <QCoreApplication>
#include <QDate>
#include <QFileInfo>
#include <QImageReader>
#include <charconv>

#include "app/book/book_templates.h"
#include "app/book/customer_book.h"
#include "app/words/counted.h"
#include "app/work/label_minutes.h"
#include "core/sheets/day.h"

namespace rodway {
namespace {

struct Panels {
    Q_DECLARE_TR_FUNCTIONS(Panels)
};

QString text_at(const FieldTexts& fields, const char* name) {
    const auto found = fields.find(name);
    return found == fields.end() ? QString() : QString::fromStdString(found->second);
}

Result<std::string> read_day(const std::string& typed, const std::string& today) {
    if (QString::fromStdString(typed).compare(Panels::tr("today"), Qt::CaseInsensitive) == 0) {
        return today;
    }
    if (const auto day = parse_day(typed)) return *day;
    return Error{ErrorCode::not_a_date, {}, typed, {}, {}, {}};
}

PanelField plain(const char* name, const QString& label, const QString& hint = {}) {
    return {name, label, hint};
}
PanelField day(const char* name, const QString& label) {
    PanelField field{name, label, Panels::tr("2027-03-01, or “today”")};
    field.read = read_day;
    return field;
}
PanelField lines(const char* name, const QString& label) {
    PanelField field{name, label, {}, false, true};
    return field;
}

Result<std::string> read_minutes(const std::string& typed, const std::string&) {
    const auto minutes = parse_label_minutes(typed);
    if (!minutes) return minutes.error();
    return std::to_string(*minutes);
}

std::optional<int> minutes_at(const FieldTexts& fields, const char* name) {
    const std::string text = text_at(fields, name).toStdString();
    int minutes = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), minutes);
    if (text.empty() || read.ec != std::errc()) return std::nullopt;
    return minutes;
}

PanelField label_time(const char* name, const QString& label) {
    PanelField field{name, label, Panels::tr("as on the label: 90 min, 1 h, 24 h, 7 days")};
    field.read = read_minutes;
    field.wanted = Panels::tr(
        "That is no time as a label has it. Type a number with its unit: 90 min, 1 h, 1 h 30 min, "
        "7 days.");
    field.show = [](const std::string& stored) {
        int minutes = 0;
        std::from_chars(stored.data(), stored.data() + stored.size(), minutes);
        return label_minutes_text(minutes);
    };
    return field;
}

bool is_here(const FieldTexts& person, const std::string& today) {
    const QString left = text_at(person, "left");
    return left.isEmpty() || left.toStdString() >= today;
}

constexpr int most_initials = 8;

/// Two who work here at a time are told apart by their initials.
std::optional<PanelRefusal> check_person(ShopFile&, std::int64_t id, FieldTexts& person,
                                         const RecordRows& all, const std::string& today) {
    const QString initials = text_at(person, "initials");
    if (initials.size() > most_initials) {
        return PanelRefusal{"initials",
                            Panels::tr("Initials stand beside every tick and reading: at most %1 "
                                       "letters, such as BK.")
                                .arg(most_initials)};
    }
    for (const auto& [other_id, other] : all) {
        if (other_id == id || initials.isEmpty() || !is_here(other, today) ||
            !is_here(person, today) ||
            text_at(other, "initials").compare(initials, Qt::CaseInsensitive) != 0) {
            continue;
        }
        return PanelRefusal{"initials", Panels::tr("%1 stands for %2 already. Choose others, so "
                                                   "that every edit says whose it is.")
                                            .arg(initials, text_at(other, "name"))};
    }
    return std::nullopt;
}

QString person_state(const FieldTexts& person, const std::string& today) {
    const QString left = text_at(person, "left");
    if (left.isEmpty()) return Panels::tr("works here");
    return is_here(person, today) ? Panels::tr("leaves on %1").arg(left)
                                  : Panels::tr("left on %1").arg(left);
}

std::optional<PanelRefusal> check_instrument(ShopFile&, std::int64_t, FieldTexts& instrument,
                                             const RecordRows&, const std::string&) {
    const QString done = text_at(instrument, "calibrated");
    const QString due = text_at(instrument, "calibration_due");
    if (!done.isEmpty() && !due.isEmpty() && due < done) {
        return PanelRefusal{
            "calibration_due",
            Panels::tr("%1 lies before the calibration itself (%2).").arg(due, done)};
    }
    return std::nullopt;
}

QString instrument_state(const FieldTexts& instrument, const std::string& today) {
    if (const QString retired = text_at(instrument, "retired"); !retired.isEmpty()) {
        return Panels::tr("retired on %1").arg(retired);
    }
    const QString due = text_at(instrument, "calibration_due");
    if (due.isEmpty()) return Panels::tr("no due date");
    const QDate now = QDate::fromString(QString::fromStdString(today), Qt::ISODate);
    const qint64 days = now.daysTo(QDate::fromString(due, Qt::ISODate));
    if (days < 0) {
        return words::counted(static_cast<int>(-days), Panels::tr("\u26a0 overdue by 1 day"),
                              Panels::tr("\u26a0 overdue by %1 days"));
    }
    if (days == 0) return Panels::tr("\u26a0 due today");
    if (days <= calibration_soon_days) {
        return words::counted(static_cast<int>(days), Panels::tr("due in 1 day"),
                              Panels::tr("due in %1 days"));
    }
    return Panels::tr("\u2713 good until %1").arg(due);
}

std::optional<PanelRefusal> check_product(ShopFile&, std::int64_t, FieldTexts& product,
                                          const RecordRows&, const std::string&) {
    const auto handling = minutes_at(product, "handling_minutes");
    const auto full = minutes_at(product, "full_minutes");
    if (handling && full && *full < *handling) {
        return PanelRefusal{"full_minutes",
                            Panels::tr("A full cure in %1 would be before it can be handled (%2). "
                                       "Look at the label again.")
                                .arg(label_minutes_text(*full), label_minutes_text(*handling))};
    }
    return std::nullopt;
}

/// What the shop prints on its papers. The words never change: shop files have them.
Choices detail_names(ShopFile&) {
    Choices names{{"name", Panels::tr("Name of the shop")},
                  {"address", Panels::tr("Address")},
                  {"phone", Panels::tr("Telephone")},
                  {"email", Panels::tr("Mail address")},
                  {"web", Panels::tr("Web address")},
                  {"tax_number", Panels::tr("Tax number")},
                  {"logo", Panels::tr("File of the logo")},
                  {"currency", Panels::tr("Sign of the currency")},
                  {templates_folder_name, Panels::tr("Folder of the book's templates")}};
    for (const BookSection section : book_sections()) {
        if (section != BookSection::cover) {
            names.push_back({own_words_name(section),
                             Panels::tr("Book: %1").arg(words::book_section_title(section))});
        }
    }
    return names;
}

std::optional<PanelRefusal> check_detail(ShopFile&, std::int64_t id, FieldTexts& detail,
                                         const RecordRows& all, const std::string&) {
    const QString name = text_at(detail, "name");
    for (const auto& [other_id, other] : all) {
        if (other_id != id && text_at(other, "name") == name) {
            return PanelRefusal{"name",
                                Panels::tr("It stands in the list already: change it there.")};
        }
    }
    if (name == templates_folder_name && !QFileInfo(text_at(detail, "content")).isDir()) {
        return PanelRefusal{"content",
                            Panels::tr("There is no such folder. Type its whole path, or "
                                       "choose it in the Book place.")};
    }
    if (name != "logo") return std::nullopt;
    const QString file = text_at(detail, "content");
    if (QImageReader(file).canRead()) return std::nullopt;
    return PanelRefusal{"content", QFileInfo::exists(file)
                                       ? Panels::tr("That file is no picture. Wanted is a PNG, "
                                                    "JPEG or SVG file.")
                                       : Panels::tr("There is no such file. Type its whole path, "
                                                    "or choose it with the button.")};
}

} // namespace

PanelKind people_panel() {
    PanelKind kind;
    kind.kind = RecordKind::person;
    kind.about = Panels::tr(
        "Who works in the shop. Every tick, reading and change carries the initials of whoever is "
        "chosen at the top left; who has left stays in what was done.");
    kind.empty = Panels::tr("Nobody is entered yet. Begin with yourself: name and initials.");
    kind.add = Panels::tr("Add person");
    kind.fresh = Panels::tr("New person");
    kind.fields = {plain("name", Panels::tr("Name")),
                   plain("initials", Panels::tr("Initials"), Panels::tr("BK")),
                   plain("role", Panels::tr("Work"), Panels::tr("machining, assembly, front desk")),
                   day("left", Panels::tr("Last day")), lines("note", Panels::tr("Note"))};
    kind.fields[3].in_table = false; // its state says it
    kind.state_title = Panels::tr("State");
    kind.state = person_state;
    kind.check = check_person;
    return kind;
}

PanelKind customers_panel() {
    PanelKind kind;
    kind.kind = RecordKind::customer;
    kind.about = Panels::tr(
        "Whose engines are built here. All of it is personal: it can be erased for good when the "
        "customer asks, from the records and from the history.");
    kind.empty = Panels::tr("No customers yet. Begin with a name; the rest may come later.");
    kind.add = Panels::tr("Add customer");
    kind.fresh = Panels::tr("New customer");
    kind.fields = {plain("name", Panels::tr("Name")), plain("phone", Panels::tr("Telephone")),
                   plain("email", Panels::tr("Mail address")),
                   lines("address", Panels::tr("Address")), lines("note", Panels::tr("Note"))};
    // Removing would leave who it was in the history.
    kind.may_be_removed = false;
    kind.state_title = Panels::tr("State");
    kind.state = [](const FieldTexts& customer, const std::string&) {
        const QString erased = text_at(customer, "erased");
        return erased.isEmpty() ? QString() : Panels::tr("erased on %1").arg(erased.left(10));
    };
    kind.check = [](ShopFile&, std::int64_t, FieldTexts& customer, const RecordRows&,
                    const std::string&) -> std::optional<PanelRefusal> {
        if (text_at(customer, "erased").isEmpty()) return std::nullopt;
        return PanelRefusal{"name", Panels::tr("This customer was erased. Add a new one instead.")};
    };
    return kind;
}

PanelKind instruments_panel() {
    PanelKind kind;
    kind.kind = RecordKind::instrument;
    kind.about = Panels::tr(
        "What is measured with: readings name their instrument, and one whose calibration is "
        "overdue is marked.");
    kind.empty = Panels::tr(
        "No instruments yet. Begin with the micrometer at hand: its name, what it measures, its "
        "resolution.");
    kind.add = Panels::tr("Add instrument");
    kind.fresh = Panels::tr("New instrument");
    kind.fields = {
        plain("name", Panels::tr("Name"), Panels::tr("micrometer 2-3 in")),
        plain("measures", Panels::tr("Measures"), Panels::tr("outside, 2 to 3 in")),
        plain("resolution", Panels::tr("Resolution, ±"), Panels::tr(".0001 in, \u00b1.0002 in")),
        plain("serial_number", Panels::tr("Serial number")),
        day("calibrated", Panels::tr("Calibrated")),
        day("calibration_due", Panels::tr("Due")),
        day("retired", Panels::tr("Retired")),
        lines("note", Panels::tr("Note"))};
    kind.fields[1].in_table = false;
    kind.fields[3].in_table = false;
    kind.fields[6].in_table = false;
    kind.state_title = Panels::tr("State");
    kind.state = instrument_state;
    kind.check = check_instrument;
    return kind;
}

PanelKind products_panel() {
    PanelKind kind;
    kind.kind = RecordKind::product;
    kind.about = Panels::tr(
        "Sealers, thread lockers, adhesives: the times after which a part may be handled and "
        "after which it may be run, as the maker prints them on the label. The maker's own paper "
        "goes before what stands here.");
    kind.empty = Panels::tr("No products yet. Begin with the sealer in use: copy its label.");
    kind.add = Panels::tr("Add product");
    kind.fresh = Panels::tr("New product");
    kind.fields = {plain("name", Panels::tr("Name")),
                   plain("purpose", Panels::tr("For"), Panels::tr("intake end seals")),
                   label_time("handling_minutes", Panels::tr("Handled after")),
                   label_time("full_minutes", Panels::tr("Full cure after")),
                   lines("note", Panels::tr("Note"))};
    kind.check = check_product;
    return kind;
}

PanelKind shop_details_panel() {
    PanelKind kind;
    kind.kind = RecordKind::shop_detail;
    kind.about =
        Panels::tr("What stands at the head of the shop's papers: sheets, estimates, build books.");
    kind.empty = Panels::tr("Nothing yet. Begin with the name of the shop.");
    kind.add = Panels::tr("Add");
    kind.fresh = Panels::tr("New line for the shop's papers");
    PanelField what = plain("name", Panels::tr("What"));
    what.choices = detail_names;
    kind.fields = {what, lines("content", Panels::tr("Text, or path of the file"))};
    kind.fields[1].in_table = true;
    kind.check = check_detail;
    return kind;
}

} // namespace rodway
