#pragma once

#include <gtest/gtest.h>

#include <QFile>
#include <QImage>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <memory>

#include "app/book/book_templates.h"
#include "app/book/customer_book.h"
#include "app/edit_stack/shop_session.h"
#include "app/first_run/demo_shop.h"
#include "app/work/kept_readings.h"
#include "app/work/output_file.h"
#include "app/work/photo_acts.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"
#include "db/record_fields.h"
#include "db/record_shape.h"

namespace rodway::tests {

/// What an outside program prints; its exit code is asserted to be 0.
inline QString printed_by(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.start(program, arguments);
    EXPECT_TRUE(process.waitForFinished(60000)) << program.toStdString();
    EXPECT_EQ(process.exitCode(), 0)
        << program.toStdString() << ": " << process.readAllStandardError().toStdString();
    return QString::fromUtf8(process.readAllStandardOutput());
}

/// The demo shop, and books of its builds as files.
class BookShop : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        const QString path = folder_.filePath("shop.rodway");
        ASSERT_TRUE(write_demo_shop(path).ok());
        auto shop = ShopFile::open(path.toStdString());
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "MH");
    }
    ShopSession& session() { return *session_; }

    template <typename Record>
    void add(Record record) {
        const auto id = session_->create(
            RecordShape<Record>::kind,
            [&](std::int64_t new_id) {
                record.id = new_id;
                return edits_to_create(record);
            },
            "test");
        ASSERT_TRUE(id.ok());
    }
    struct Typed {
        const char* quantity;
        std::string position;
        std::string text;
    };
    /// Readings as somebody types them, as one act.
    void read(const std::vector<Typed>& all) {
        const auto sheets = BuildSheets::load(session_->shop(), build_);
        ASSERT_TRUE(sheets.ok());
        std::vector<Reading> readings;
        for (const Typed& typed : all) {
            const SheetKind* kind = sheet_of_quantity(typed.quantity);
            ASSERT_NE(kind, nullptr) << typed.quantity;
            for (const Quantity& one : kind->quantities) {
                if (one.id != typed.quantity) continue;
                const auto reading = reading_to_keep(one, typed.position, typed.text);
                ASSERT_TRUE(reading.ok()) << typed.quantity << ' ' << typed.position;
                readings.push_back(*reading);
            }
        }
        ASSERT_TRUE(keep_readings(*session_, build_, *sheets, readings, "read").ok());
    }
    void read(const char* quantity, const std::string& position, const std::string& text) {
        read({{quantity, position, text}});
    }
    [[nodiscard]] BookFacts facts() {
        auto gathered = gather_book(session_->shop(), build_, Moment::present());
        EXPECT_TRUE(gathered.ok());
        return std::move(gathered).value();
    }
    /// The file of a book by a template's text; without pictures in 3D.
    QString write_book(const std::string& pattern, const QString& name,
                       QPageSize::PageSizeId size = QPageSize::A4) {
        const auto read = read_book_template(pattern);
        EXPECT_TRUE(read.ok());
        const auto said = std::make_shared<const BookFacts>(facts());
        const auto pictures =
            std::make_shared<const BookPictures>(draw_book_pictures(*said, nullptr));
        const CustomerBook book = customer_book(*read, {said, pictures, 0.0}, size);
        outline_ = book.layout.outline();
        const auto pdf = book_pdf(book.layout, book.title);
        EXPECT_TRUE(pdf.ok() && pdf->has_value());
        const QString path = folder_.filePath(name);
        EXPECT_TRUE(write_output(path, **pdf).ok());
        return path;
    }
    static std::string whole_template() {
        QFile file(RODWAY_RESOURCES "/handoff/complete.txt");
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        return file.readAll().toStdString();
    }
    /// Words of a file in the order in which they are drawn, each page's head and foot among them.
    static QString text_of(const QString& pdf) {
        return printed_by("pdftotext", {"-raw", pdf, "-"});
    }
    /// Without blanks and ends of lines, which fall anywhere.
    static QString solid(QString text) { return text.remove(QRegularExpression("[\\s\\f]+")); }

    QTemporaryDir folder_;
    std::unique_ptr<ShopSession> session_;
    std::int64_t build_ = 1;
    std::vector<BookOutlineEntry> outline_; ///< of the book written last
};

} // namespace rodway::tests
