#include "app/words/book_words.h"

#include <QCoreApplication>
#include <algorithm>

namespace rodway::words {
namespace {

struct Book {
    Q_DECLARE_TR_FUNCTIONS(BookWords)
};

} // namespace

QString book_section_title(BookSection section) {
    switch (section) {
        case BookSection::cover:
            return Book::tr("Build book");
        case BookSection::contents:
            return Book::tr("Contents");
        case BookSection::glance:
            return Book::tr("The engine at a glance");
        case BookSection::settings:
            return Book::tr("Settings card");
        case BookSection::watch:
            return Book::tr("What to do and what to watch");
        case BookSection::stages:
            return Book::tr("What was done, when and by whom");
        case BookSection::sheets:
            return Book::tr("What was measured");
        case BookSection::valvetrain:
            return Book::tr("Valvetrain: room around every pushrod");
        case BookSection::variants:
            return Book::tr("What was tried and chosen");
        case BookSection::parts:
            return Book::tr("Parts and fasteners");
        case BookSection::dyno:
            return Book::tr("Dyno");
        case BookSection::photos:
            return Book::tr("Photos");
        case BookSection::account:
            return Book::tr("What was agreed");
        case BookSection::not_checked:
            return Book::tr("What was not checked");
        case BookSection::changes:
            return Book::tr("What has changed since the book before");
        case BookSection::cautions:
            return Book::tr("Cautions");
        case BookSection::glossary:
            return Book::tr("Words of the trade");
        case BookSection::signatures:
            return Book::tr("Handed over");
        case BookSection::history:
            return Book::tr("Seal of the record");
    }
    return {};
}

QString book_section_empty(BookSection section) {
    switch (section) {
        case BookSection::settings:
            return Book::tr("No settings were recorded.");
        case BookSection::watch:
            return Book::tr("Nothing is open: no item to watch, no waiver, nothing declined.");
        case BookSection::stages:
            return Book::tr("No stages of the work were recorded.");
        case BookSection::sheets:
            return Book::tr("No measurements were recorded.");
        case BookSection::valvetrain:
            return Book::tr(
                "No model of the valvetrain was recorded, so no clearance was worked out.");
        case BookSection::variants:
            return Book::tr("No decisions were recorded.");
        case BookSection::parts:
            return Book::tr("No parts were recorded.");
        case BookSection::dyno:
            return Book::tr("No dyno pull was recorded.");
        case BookSection::photos:
            return Book::tr("No photo was chosen for this book.");
        case BookSection::account:
            return Book::tr("No estimate, extra or invoice was recorded.");
        case BookSection::not_checked:
            return Book::tr("Nothing that this book would want is missing.");
        case BookSection::changes:
            return Book::tr("Nothing has changed since the book before.");
        default:
            return Book::tr("Nothing was recorded.");
    }
}

BookBlocks book_section(BookSection section, const BookSource& source) {
    switch (section) {
        case BookSection::cover:
            return book_cover(source, book_section_title(section));
        case BookSection::contents:
            return {BookContents{}};
        case BookSection::glance:
            return book_glance(source);
        case BookSection::settings:
            return book_settings(source);
        case BookSection::watch:
            return book_watch(source);
        case BookSection::stages:
            return book_stages(source);
        case BookSection::sheets:
            return book_sheets(source);
        case BookSection::valvetrain:
            return book_valvetrain(source);
        case BookSection::variants:
            return book_variants(source);
        case BookSection::parts:
            return book_parts(source);
        case BookSection::dyno:
            return book_dyno(source);
        case BookSection::photos:
            return book_photos(source);
        case BookSection::account:
            return book_account(source);
        case BookSection::not_checked:
            return book_not_checked(source);
        case BookSection::changes:
            return book_changes(source);
        case BookSection::cautions:
            return book_cautions(source);
        case BookSection::glossary:
            return book_glossary();
        case BookSection::signatures:
            return book_signatures(source);
        case BookSection::history:
            return book_history(source);
    }
    return {};
}

QString person(const BookFacts& facts, const std::string& initials) {
    const auto found = std::find_if(
        facts.people.begin(), facts.people.end(),
        [&](const Person& one) { return one.initials == initials || one.name == initials; });
    if (found == facts.people.end() || found->name == initials) {
        return printable(initials);
    }
    return Book::tr("%1 (%2)").arg(printable(found->name), printable(initials));
}

QString as_written(const Taken& taken, const Quantity& quantity) {
    const QString text = printable(taken.reading.text);
    const bool bare = taken.value.is_number() && !text.isEmpty() &&
                      (text.back().isDigit() || text.back() == u'.');
    return bare && !quantity.unit.empty() ? text + u' ' + QString::fromStdString(quantity.unit)
                                          : text;
}

BookBlock paragraph(const QString& text, BookText::Look look) {
    return BookText{text, look};
}

void FactTable::add(const QString& what, const QString& value) {
    if (!value.isEmpty()) {
        table_.rows.push_back({what, value});
    }
}

void FactTable::add(const QString& what, const std::optional<std::string>& value) {
    if (value) {
        add(what, printable(*value));
    }
}

} // namespace rodway::words
