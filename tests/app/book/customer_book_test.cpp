#include "app/book/customer_book.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <random>
#include <set>

#include "app/book/book_text.h"
#include "app/words/box_words.h"
#include "app/words/hold_words.h"
#include "app/words/sheet_words.h"
#include "core/sheets/sheet_rows.h"
#include "tests/app/book/book_shop.h"

namespace rodway {
namespace {

using tests::printed_by;

const std::string only_sheets = "book B\nsection sheets\n";

class CustomerBookTest : public tests::BookShop {
  protected:
    /// Readings that differ all over, so that none can stand for another.
    void fill_sheets() {
        std::mt19937 random(20261130);
        int step = 100;
        const auto next = [&] { return step += 1 + static_cast<int>(random() % 7); };
        std::vector<Typed> all;
        for (const char* quantity : {"lash_hot", "lash_cold", "spring_installed_height"}) {
            for (int cylinder = 1; cylinder <= 8; ++cylinder) {
                for (const char* valve : {"I", "E"}) {
                    all.push_back(
                        {quantity, std::to_string(cylinder) + valve, "." + std::to_string(next())});
                }
            }
        }
        for (int cylinder = 1; cylinder <= 8; ++cylinder) {
            all.push_back(
                {"piston_size", std::to_string(cylinder), "4.0" + std::to_string(next())});
        }
        for (const char* where : {"top thrust", "top pin", "bottom thrust"}) {
            for (int cylinder = 1; cylinder <= 8; ++cylinder) {
                all.push_back({"bore", std::to_string(cylinder) + ' ' + where,
                               "4.1" + std::to_string(next())});
            }
        }
        for (int journal = 1; journal <= 5; ++journal) {
            all.push_back(
                {"main_diameter", "J" + std::to_string(journal), "2.4" + std::to_string(next())});
            all.push_back({"main_bearing_bore", "J" + std::to_string(journal),
                           "2.5" + std::to_string(next())});
        }
        all.push_back({"oil_used", "", "20W-50, 5 quarts"});
        all.push_back({"seal_numbers", "", "tabs 4411 and 4412"});
        read(all);
    }

    /// What a sheet's part of a book may say, from the shop's records as they are now, by a road of
    /// its own: readings, limits, figures, rows, findings, who and when.
    [[nodiscard]] QStringList derived_texts() {
        QStringList texts;
        const auto sheets = BuildSheets::load(session().shop(), build_);
        EXPECT_TRUE(sheets.ok());
        for (const Reading& reading : sheets->readings()) {
            texts << QString::fromStdString(reading.text) << words::day_of(reading.taken_at)
                  << QString::fromStdString(reading.position);
        }
        for (const SheetKind& kind : sheets->kinds()) {
            const AssessedSheet sheet = sheets->assess(kind, EntryOrder::by_number);
            texts << words::sheet_title(kind.id);
            for (const SheetLine& line : sheet.lines) {
                texts << words::sheet_title(line.quantity.id)
                      << QString::fromStdString(line.quantity.unit);
                for (const SheetBox& box : line.boxes) {
                    texts << QString::fromStdString(box.position);
                    if (box.figure) texts << words::amount(*box.figure, line.quantity);
                    if (box.limit) texts << words::limit(*box.limit, line.quantity);
                }
                for (const SheetRow& row : rows_of(line)) {
                    texts << words::row_text(row, line.quantity);
                }
            }
            for (const SheetFinding& one : sheet.findings) {
                for (const SheetLine& line : sheet.lines) {
                    if (line.quantity.id == one.quantity) {
                        texts << words::finding(one, line.quantity);
                    }
                }
            }
        }
        return texts;
    }
    static QStringList numbers_in(const QString& text) {
        static const QRegularExpression number("\\d*\\.?\\d+");
        QStringList found;
        for (auto at = number.globalMatch(text); at.hasNext();) found << at.next().captured();
        return found;
    }
    /// What is wrong between a book of the sheets and the shop as it is now; empty if nothing is.
    [[nodiscard]] QStringList disagreements(const QString& pdf) {
        QString text = text_of(pdf);
        text.remove(QRegularExpression("Page \\d+ of \\d+"));
        text.remove("What was measured")
            .remove(QRegularExpression("B: Halden V8 for Ada Brandvold"));
        std::set<QString> known;
        const QStringList derived = derived_texts();
        for (const QString& one : derived) {
            for (const QString& number : numbers_in(one)) known.insert(number);
        }
        QStringList wrong;
        for (const QString& number : numbers_in(text)) {
            if (known.count(number) == 0) wrong << "of no reading: " + number;
        }
        const QString packed = solid(text);
        const auto sheets = BuildSheets::load(session().shop(), build_);
        for (const SheetKind& kind : sheets->kinds()) {
            for (const Quantity& quantity : kind.quantities) {
                for (const Taken& taken : sheets->taken().of(quantity.id)) {
                    const QString reading = QString::fromStdString(taken.reading.text);
                    if (kind.id != "dyno_pull" && !packed.contains(solid(reading))) {
                        wrong << "not in the book: " + reading;
                    }
                }
            }
        }
        return wrong;
    }
};

TEST_F(CustomerBookTest, EveryNumberOfTheSheetsComesFromTheRecordsAndEveryReadingIsThere) {
    fill_sheets();
    const QString pdf = write_book(only_sheets, "sheets.pdf");
    EXPECT_EQ(disagreements(pdf).join('\n').toStdString(), "");
    // The same book is wrong as soon as a reading is taken again.
    read("lash_hot", "5E", ".0777");
    EXPECT_TRUE(disagreements(pdf).join('\n').contains("not in the book: .0777"));
    const QString later = write_book(only_sheets, "later.pdf");
    EXPECT_EQ(disagreements(later).join('\n').toStdString(), "");
    EXPECT_TRUE(text_of(later).contains("Values taken before these, and kept: 1."));
}

TEST_F(CustomerBookTest, EachReadingStandsInTheRowOfItsPlace) {
    fill_sheets();
    const QString pdf = write_book(only_sheets, "sheets.pdf");
    const QStringList lines =
        printed_by("pdftotext", {"-layout", pdf, "-"}).split('\n', Qt::SkipEmptyParts);
    const auto sheets = BuildSheets::load(session().shop(), build_);
    int found = 0;
    for (const char* quantity : {"lash_hot", "lash_cold", "spring_installed_height"}) {
        for (const Taken& taken : sheets->taken().of(quantity)) {
            const QString row = QString::fromStdString(taken.reading.position) + ' ';
            const QString value = QString::fromStdString(taken.reading.text);
            for (const QString& line : lines) {
                const QStringList words = line.split(' ', Qt::SkipEmptyParts);
                if (words.contains(value)) {
                    EXPECT_TRUE(line.trimmed().startsWith(row)) << line.toStdString();
                    ++found;
                }
            }
        }
    }
    EXPECT_GE(found, 48);
}

TEST_F(CustomerBookTest, ReadsFromItsFirstHeadingToItsLastAsItsOutlineDoes) {
    fill_sheets();
    const QString pdf = write_book(whole_template(), "book.pdf");
    const QJsonObject json =
        QJsonDocument::fromJson(
            printed_by("qpdf", {"--json=2", "--json-key=outlines", pdf}).toUtf8())
            .object();
    QStringList titles;
    const std::function<void(const QJsonArray&)> walk = [&](const QJsonArray& items) {
        for (const QJsonValue& item : items) {
            titles << item["title"].toString();
            walk(item["kids"].toArray());
        }
    };
    walk(json["outlines"].toArray());
    QStringList wanted;
    for (const BookOutlineEntry& entry : outline_) wanted << entry.title;
    EXPECT_EQ(titles, wanted);
    EXPECT_GT(titles.size(), 30);
    // Every page's text in turn; a heading stands on the page that the outline says, below the one
    // before it.
    const QStringList pages = text_of(pdf).split('\f');
    qsizetype at = 0;
    int page = 0;
    for (const BookOutlineEntry& entry : outline_) {
        if (entry.page != page) at = 0;
        page = entry.page;
        const QString text = solid(pages[page]);
        at = text.indexOf(solid(entry.title), at);
        ASSERT_GE(at, 0) << entry.title.toStdString() << " on page " << page + 1;
        at += solid(entry.title).size();
    }
    EXPECT_EQ(pages.size() - 1, printed_by("qpdf", {"--show-npages", pdf}).trimmed().toInt());
}

TEST_F(CustomerBookTest, IsASoundFileOnEitherPaperWithItsFontsInIt) {
    for (const auto size : {QPageSize::A4, QPageSize::Letter}) {
        const QString pdf = write_book(whole_template(), "book.pdf", size);
        const QString check = printed_by("qpdf", {"--check", pdf});
        EXPECT_TRUE(check.contains("No syntax or stream encoding errors")) << check.toStdString();
        EXPECT_FALSE(check.contains("WARNING")) << check.toStdString();
        const QString info = printed_by("pdfinfo", {pdf});
        // ISO 216 and ANSI Y14.1, in points.
        EXPECT_TRUE(info.contains(size == QPageSize::A4 ? QRegularExpression("595(\\.\\d+)? x 842")
                                                        : QRegularExpression("612 x 792")))
            << info.toStdString();
        EXPECT_TRUE(info.contains("Build book: Halden V8")) << info.toStdString();
        const QStringList fonts =
            printed_by("pdffonts", {pdf}).split('\n', Qt::SkipEmptyParts).mid(2);
        EXPECT_GE(fonts.size(), 2);
        for (const QString& font : fonts) {
            // "emb sub uni": embedded, and with what makes its text selectable.
            EXPECT_TRUE(font.contains(QRegularExpression("yes +(yes|no) +yes +\\d+ +0$")))
                << font.toStdString();
        }
    }
}

/// Every word that stands outside the paper's margins.
QStringList outside(const QString& pdf) {
    const QString boxes = printed_by("pdftotext", {"-bbox", pdf, "-"});
    static const QRegularExpression page("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\">");
    static const QRegularExpression word(
        "<word xMin=\"([-\\d.]+)\" yMin=\"([-\\d.]+)\" xMax=\"([-\\d.]+)\" yMax=\"([-\\d.]+)\">"
        "(.*)</word>");
    QStringList found;
    double width = 0.0;
    double height = 0.0;
    constexpr double margin = 18.0 / 25.4 * 72.0 - 2.0; // two points for overhanging letters
    for (const QString& line : boxes.split('\n')) {
        if (const auto size = page.match(line); size.hasMatch()) {
            width = size.captured(1).toDouble();
            height = size.captured(2).toDouble();
        } else if (const auto box = word.match(line); box.hasMatch()) {
            if (box.captured(1).toDouble() < margin ||
                box.captured(3).toDouble() > width - margin ||
                box.captured(2).toDouble() < margin - 4.0 ||
                box.captured(4).toDouble() > height - margin + 4.0) {
                found << line.trimmed();
            }
        }
    }
    EXPECT_GT(width, 500.0);
    return found;
}

TEST_F(CustomerBookTest, NoTitleOfATableIsBrokenWithinAWord) {
    fill_sheets();
    read({{"pull_torque", "pull 1 3000 rpm", "388"}, {"pull_torque", "pull 1 3300 rpm", "394"}});
    Approval asked;
    asked.build_id = build_;
    asked.subject = "Bronze guides";
    asked.asked_at = "2026-11-20T10:00:00Z";
    add(asked);
    PartRecord part;
    part.build_id = build_;
    part.item = "Head gasket";
    add(part);
    const auto said = std::make_shared<const BookFacts>(facts());
    const words::BookSource source{said, std::make_shared<const BookPictures>(),
                                   text_width(BookPaper{})};
    int titles = 0;
    for (const BookSection section : book_sections()) {
        for (const BookBlock& block : words::book_section(section, source)) {
            const auto* table = std::get_if<BookTable>(&block);
            if (table == nullptr) continue;
            double shares = 0.0;
            for (const BookColumn& column : table->columns) shares += column.share;
            const QFontMetricsF bold(book_font(table->points, true));
            for (const BookColumn& column : table->columns) {
                constexpr double beside_text = 6.0;
                const double width = source.width * column.share / shares - beside_text;
                for (const QString& word : column.title.split(' ')) {
                    EXPECT_LE(bold.horizontalAdvance(word), width) << column.title.toStdString();
                    ++titles;
                }
            }
        }
    }
    EXPECT_GT(titles, 60);
}

TEST_F(CustomerBookTest, NamesOfAllScriptsStandInIt) {
    // Letters that the book's own font has, and East Asian ones that come from another.
    const QString names[] = {QString::fromUtf8("Łukasz Þórðarson"),
                             QString::fromUtf8("Ελένη"),
                             QString::fromUtf8("Женя Кузнецова"),
                             QString::fromUtf8("שלום"),
                             QString::fromUtf8("علي"),
                             QString::fromUtf8("中村 花子")};
    for (const QString& name : names) {
        Note note;
        note.build_id = build_;
        note.in_book = true;
        note.written_by = "MH";
        note.written_at = "2026-11-20T10:00:00Z";
        note.text = name.toStdString();
        add(note);
    }
    const QString pdf = write_book("book B\nsection stages\n", "names.pdf");
    // Compatibility forms (Arabic letters as they are shaped) are as good as the letters.
    QString text = solid(text_of(pdf)).normalized(QString::NormalizationForm_KC);
    text.remove(QRegularExpression("[\\x{202A}-\\x{202E}]")); // pdftotext's own marks of direction
    for (const QString& name : names) {
        const QString letters = solid(name);
        QString turned = letters; // as drawn from left to right
        std::reverse(turned.begin(), turned.end());
        EXPECT_TRUE(text.contains(letters) || text.contains(turned)) << name.toStdString();
    }
    EXPECT_EQ(outside(pdf).join('\n').toStdString(), "");
}

TEST_F(CustomerBookTest, HostileTextIsPrintedWholeAndMeansNothing) {
    QString many;
    for (int word = 0; many.size() < 100'000; ++word)
        many += QString("w%1 ").arg(word, 6, 10, QChar('0'));
    const QString long_word(3000, QChar('x'));
    const QString awkward =
        QString::fromUtf8("<b>bold</b>&amp; %1 %2 (\\) /Type \x01\x02\x07\x1b[31m\xe2\x80\xae end");
    for (const QString& text : {many, long_word, awkward}) {
        OpenItem item;
        item.build_id = build_;
        item.title = text.left(200).toStdString();
        item.detail = text.toStdString();
        item.opened_by = "MH";
        item.opened_at = "2026-11-20T10:00:00Z";
        add(item);
    }
    const QString pdf = write_book("book B\nsection watch\nsection not_checked\n", "hostile.pdf");
    EXPECT_TRUE(printed_by("qpdf", {"--check", pdf}).contains("No syntax"));
    QString text = text_of(pdf);
    text.remove(QRegularExpression("Page \\d+ of \\d+"));
    text.remove("B: Halden V8 for Ada Brandvold").remove("What to do and what to watch");
    const QString packed = solid(text);
    EXPECT_TRUE(packed.contains(solid(many)));
    EXPECT_TRUE(packed.contains(long_word));
    EXPECT_TRUE(packed.contains(QString("<b>bold</b>&amp;%1%2(\\)/Type[31mend")));
    for (const QChar one : text) {
        EXPECT_TRUE(one == '\n' || one == '\f' || one == '\r' ||
                    one.category() != QChar::Other_Control)
            << static_cast<int>(one.unicode());
    }
    EXPECT_EQ(outside(pdf).join('\n').toStdString(), "");
}

TEST_F(CustomerBookTest, WhereNothingWasRecordedItSaysSoOrLeavesItOut) {
    const QString text = text_of(write_book(whole_template(), "book.pdf"));
    for (const BookSection section :
         {BookSection::parts, BookSection::dyno, BookSection::variants}) {
        EXPECT_TRUE(solid(text).contains(solid(words::book_section_empty(section))))
            << words::book_section_empty(section).toStdString();
    }
    for (const BookSection section :
         {BookSection::photos, BookSection::account, BookSection::changes}) {
        for (const BookOutlineEntry& entry : outline_) {
            EXPECT_NE(entry.title, words::book_section_title(section));
        }
    }
}

TEST_F(CustomerBookTest, OpenItemsWaiversAndWhatWasDeclinedStandInPlainWords) {
    OpenItem item;
    item.build_id = build_;
    item.title = "Rear seal weeps";
    item.if_it_goes_wrong = "Oil on the clutch";
    item.opened_by = "MH";
    item.opened_at = "2026-11-20T10:00:00Z";
    add(item);
    Waiver waiver;
    waiver.build_id = build_;
    waiver.subject = "Ring gap of cylinder 3";
    waiver.reason = "Used rings at the customer's wish";
    waiver.waived_by = "MH";
    waiver.waived_at = "2026-11-20T10:00:00Z";
    add(waiver);
    Approval declined;
    declined.build_id = build_;
    declined.subject = "Bronze guides";
    declined.amount = "420.00";
    declined.answer = ApprovalAnswer::declined;
    declined.asked_at = "2026-11-20T10:00:00Z";
    add(declined);
    const QString text = solid(text_of(write_book("book B\nsection watch\n", "watch.pdf")));
    for (const char* wanted : {"Rear seal weeps", "Oil on the clutch", "Ring gap of cylinder 3",
                               "Used rings at the customer's wish", "Bronze guides", "420.00"}) {
        EXPECT_TRUE(text.contains(solid(wanted))) << wanted;
    }
    EXPECT_LT(text.indexOf("Exceptionstakenon"), text.indexOf("Offeredanddeclined"));
    EXPECT_LT(text.indexOf("Offeredanddeclined"), text.indexOf("Bronzeguides"));
}

TEST_F(CustomerBookTest, PhotosChosenStandInItAndOthersDoNot) {
    const QString file = folder_.filePath("block.png");
    QImage picture(600, 400, QImage::Format_RGB32);
    picture.fill(Qt::red);
    ASSERT_TRUE(picture.save(file));
    ASSERT_TRUE(keep_photo(session(), {build_}, file).ok());
    const std::string pattern = "book B\nsection photos\n";
    const QString without = write_book(pattern, "without.pdf");
    EXPECT_EQ(printed_by("pdfimages", {"-list", without}).split('\n', Qt::SkipEmptyParts).size(),
              2);
    const auto photos = load_records<Photo>(session().shop(), build_);
    Photo chosen = photos->front();
    chosen.in_book = true;
    chosen.caption = "The block as it came";
    ASSERT_TRUE(change_photo(session(), photos->front(), chosen).ok());
    const QString with = write_book(pattern, "with.pdf");
    EXPECT_EQ(printed_by("pdfimages", {"-list", with}).split('\n', Qt::SkipEmptyParts).size(), 3);
    EXPECT_TRUE(solid(text_of(with)).contains(solid("The block as it came")));
}

TEST_F(CustomerBookTest, TheShopsOwnWordsStandInTheirSection) {
    ShopDetail own;
    own.name = own_words_name(BookSection::settings);
    own.content = "Ring us before you touch the lash.";
    add(own);
    const QString text = solid(text_of(write_book(
        "book B\nsection settings\nbefore Standing words.\nsection cautions\n", "own.pdf")));
    EXPECT_LT(text.indexOf("Standingwords."), text.indexOf(solid("Ring us before you touch")));
    EXPECT_LT(text.indexOf(solid("Ring us before you touch")), text.indexOf("Cautions"));
}

TEST_F(CustomerBookTest, TheSealIsTheHeadOfTheChainAndChangesWithTheRecord) {
    const std::string pattern = "book B\nsection history\n";
    const std::string head = facts().history_head;
    ASSERT_EQ(head.size(), 64U);
    EXPECT_TRUE(
        solid(text_of(write_book(pattern, "a.pdf"))).contains(QString::fromStdString(head)));
    read("lash_hot", "3I", ".026");
    EXPECT_NE(facts().history_head, head);
    EXPECT_TRUE(solid(text_of(write_book(pattern, "b.pdf")))
                    .contains(QString::fromStdString(facts().history_head)));
}

} // namespace
} // namespace rodway
