// The build's page: notes, pictures, and the folder to which a phone uploads.
#include <QBuffer>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPainter>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QUrl>

#include "app/build/photos_panel.h"
#include "db/attachments.h"
#include "tests/app/build/open_build.h"

namespace rodway {
namespace {

/// Red at the left, blue at the right, wider than high; grain so that its file has some length.
QByteArray jpeg(int seed = 0, QSize size = {320, 160}) {
    QImage picture(size, QImage::Format_RGB32);
    QPainter painter(&picture);
    painter.fillRect(0, 0, size.width() / 2, size.height(), Qt::red);
    painter.fillRect(size.width() / 2, 0, size.width() / 2, size.height(), Qt::blue);
    for (int dot = 0; dot < 40; ++dot) {
        painter.fillRect((dot * 53 + seed * 7) % size.width(), (dot * 31) % size.height(), 2, 2,
                         Qt::white);
    }
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    picture.save(&buffer, "JPEG", 95);
    return bytes;
}

/// The same picture with the camera's word on how it was held: Exif 2.32, tag 0x0112.
QByteArray held(QByteArray bytes, char orientation) {
    QByteArray exif("Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0", 25);
    exif.append(orientation).append("\0\0\0\0\0\0", 6);
    QByteArray segment("\xff\xe1", 2);
    const auto length = static_cast<quint16>(exif.size() + 2);
    segment.append(static_cast<char>(length >> 8)).append(static_cast<char>(length & 0xff));
    return bytes.insert(2, segment + exif);
}

class NotesAndPhotos : public OpenBuild {
  protected:
    void SetUp() override {
        OpenBuild::SetUp();
        page_->show_tab(BuildPage::Tab::notes_and_photos);
    }
    QString write(const QString& name, const QByteArray& bytes) {
        const QString path = folder_.filePath(name);
        QDir().mkpath(QFileInfo(path).path());
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return path;
    }
    static QByteArray read(const QString& path) {
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    QPlainTextEdit& text() { return child<QPlainTextEdit>("note_text"); }
    void note(const QString& words) {
        text().setFocus();
        text().setPlainText(words);
        QTest::keyClick(&text(), Qt::Key_Return);
    }
    void of(const QString& what) {
        auto& where = child<QComboBox>("remarks_of");
        const int found = where.findText(what, Qt::MatchStartsWith);
        ASSERT_GE(found, 0) << what.toStdString();
        where.setCurrentIndex(found);
    }
    QListWidget& list() { return child<QListWidget>("photos"); }
    /// The small picture of a row, once it is made.
    QImage small(int row = 0) {
        EXPECT_TRUE(
            QTest::qWaitFor([&] { return !list().item(row)->icon().isNull(); }, patience_ms));
        const QIcon icon = list().item(row)->icon();
        return icon.pixmap(icon.actualSize(list().iconSize())).toImage();
    }
};

TEST_F(NotesAndPhotos, ANoteIsKeptByEnterWithWhoAndWhere) {
    of("step: Pushrods walked");
    child<QLineEdit>("remark_position").setText("3I");
    text().setFocus();
    QTest::keyClicks(&text(), "Rubs at two o'clock");
    QTest::keyClick(&text(), Qt::Key_Return, Qt::ShiftModifier);
    QTest::keyClicks(&text(), "below the seal");
    EXPECT_TRUE(all<Note>().empty());
    QTest::keyClick(&text(), Qt::Key_Return);
    ASSERT_EQ(all<Note>().size(), 1U);
    const Note kept = all<Note>().front();
    EXPECT_EQ(kept.text, "Rubs at two o'clock\nbelow the seal");
    EXPECT_EQ(kept.position, "3I");
    EXPECT_EQ(kept.step_id, 1);
    EXPECT_EQ(kept.stage_id, clearance_stage);
    EXPECT_EQ(kept.written_by, "MH");
    EXPECT_FALSE(kept.in_book);
    EXPECT_EQ(text().toPlainText(), "");
    EXPECT_TRUE(shown("notes", "Clearance › Pushrods walked, 3I"))
        << rows("notes").join('\n').toStdString();
    of("step: Rails sealed");
    EXPECT_TRUE(rows("notes").isEmpty());
    of("stage: Clearance");
    EXPECT_EQ(rows("notes").size(), 1);
    page_->show_stage(oil_stage);
    EXPECT_TRUE(rows("notes").isEmpty());
    of("the whole build");
    EXPECT_EQ(rows("notes").size(), 1);
}

TEST_F(NotesAndPhotos, ANoteGoesIntoTheBookIsChangedAndTakenAway) {
    note("Bore 3 tight");
    auto& notes = child<QListWidget>("notes");
    notes.setFocus();
    notes.setCurrentRow(0);
    QTest::keyClick(&notes, Qt::Key_Space);
    EXPECT_TRUE(all<Note>().front().in_book);
    button("change_note").click();
    EXPECT_EQ(text().toPlainText(), "Bore 3 tight");
    text().setPlainText("Bore 3 tight by a tenth");
    QTest::keyClick(&text(), Qt::Key_Return);
    ASSERT_EQ(all<Note>().size(), 1U);
    EXPECT_EQ(all<Note>().front().text, "Bore 3 tight by a tenth");
    EXPECT_TRUE(all<Note>().front().in_book);
    button("change_note").click();
    QTest::keyClick(&text(), Qt::Key_Escape);
    EXPECT_EQ(text().toPlainText(), "");
    note("Another");
    EXPECT_EQ(all<Note>().size(), 2U);
    ASSERT_TRUE(choose("notes", "Bore 3"));
    button("remove_note").click();
    ASSERT_EQ(all<Note>().size(), 1U);
    EXPECT_EQ(all<Note>().front().text, "Another");
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(all<Note>().size(), 2U);
}

TEST_F(NotesAndPhotos, AnEmptyOrEndlessNoteIsRefusedAndStays) {
    note("  \n ");
    EXPECT_TRUE(all<Note>().empty());
    note(QString(20001, 'x'));
    EXPECT_TRUE(all<Note>().empty());
    EXPECT_EQ(text().toPlainText().size(), 20001);
    note(QString(20000, 'x'));
    EXPECT_EQ(all<Note>().size(), 1U);
}

TEST_F(NotesAndPhotos, HostileNotesAndCaptionsAreKeptAndShownAsTheyAre) {
    page_->add_photos({write("tube.jpg", jpeg())});
    for (const QString& words : hostile_texts()) {
        note(words);
        EXPECT_EQ(all<Note>().back().text, words.toStdString());
        EXPECT_TRUE(shown("notes", words));
        auto& caption = child<QLineEdit>("photo_caption");
        caption.setText(words);
        QTest::keyClick(&caption, Qt::Key_Return);
        EXPECT_EQ(all<Photo>().front().caption, words.toStdString());
        EXPECT_TRUE(shown("photos", words));
    }
    settle();
}

TEST_F(NotesAndPhotos, APictureIsKeptOnceWithItsWordsAndItsOriginalUntouched) {
    const QByteArray bytes = jpeg();
    const QString source = write("IMG 1.JPG", bytes);
    of("step: Pushrods walked");
    child<QLineEdit>("remark_position").setText("3I");
    page_->add_photos({source});
    ASSERT_EQ(all<Photo>().size(), 1U);
    Photo photo = all<Photo>().front();
    EXPECT_EQ(photo.file_name, "IMG 1.JPG");
    EXPECT_EQ(photo.step_id, 1);
    EXPECT_EQ(photo.position, "3I");
    EXPECT_EQ(photo.added_by, "MH");
    const auto kept = path_of(session_->shop(), photo.digest);
    ASSERT_TRUE(kept.has_value());
    EXPECT_EQ(read(QString::fromStdString(*kept)), bytes);
    EXPECT_EQ(read(source), bytes);
    auto& caption = child<QLineEdit>("photo_caption");
    caption.setFocus();
    QTest::keyClicks(&caption, "Where it rubs");
    QTest::keyClick(&caption, Qt::Key_Return);
    child<QCheckBox>("photo_in_book").click();
    photo = all<Photo>().front();
    EXPECT_EQ(photo.caption, "Where it rubs");
    EXPECT_TRUE(photo.in_book);
    EXPECT_TRUE(shown("photos", "3I: Where it rubs (book)"));
    button("remove_photo").click();
    EXPECT_TRUE(all<Photo>().empty());
    EXPECT_EQ(list().count(), 0);
}

// A phone held upright turns no pixels: it writes down how it was held.
TEST_F(NotesAndPhotos, APictureIsShownAsTheCameraWasHeld) {
    page_->add_photos({write("lying.jpg", jpeg())});
    const QImage lying = small();
    EXPECT_GT(lying.width(), lying.height());
    EXPECT_GT(qRed(lying.pixel(5, lying.height() / 2)), 200);
    // 6: the first row is the right-hand side, so that the left comes to the top.
    page_->add_photos({write("upright.jpg", held(jpeg(), 6))});
    ASSERT_EQ(list().count(), 2); // another file, though the picture is the same
    const QImage upright = small();
    EXPECT_GT(upright.height(), upright.width());
    EXPECT_GT(qRed(upright.pixel(upright.width() / 2, 5)), 200);
    EXPECT_GT(qBlue(upright.pixel(upright.width() / 2, upright.height() - 6)), 200);
    // 8: the other way round.
    page_->add_photos({write("left.jpg", held(jpeg(), 8))});
    const QImage left = small();
    EXPECT_GT(left.height(), left.width());
    EXPECT_GT(qBlue(left.pixel(left.width() / 2, 5)), 200);
}

TEST_F(NotesAndPhotos, WhatIsNoWholePictureIsRefusedByNameAndTheOthersAreKept) {
    const QByteArray whole = jpeg();
    // A small picture inside has an end of its own: the file is cut short all the same.
    QByteArray with_preview = held(jpeg(3), 1);
    QByteArray preview("\xff\xe2", 2);
    const QByteArray inside = jpeg(1, {16, 16});
    const auto length = static_cast<quint16>(inside.size() + 2);
    preview.append(static_cast<char>(length >> 8)).append(static_cast<char>(length & 0xff));
    with_preview.insert(2, preview + inside);
    page_->add_photos({write("cut.jpg", whole.left(whole.size() * 2 / 3)),
                       write("preview.jpg", with_preview.left(with_preview.size() - 200)),
                       write("notes.jpg", "no picture at all"), write("nothing.png", {}),
                       folder_.filePath("gone.jpg"), write("good.jpg", whole)});
    ASSERT_EQ(complaints_.size(), 1);
    for (const char* name : {"cut.jpg", "preview.jpg", "notes.jpg", "nothing.png", "gone.jpg"}) {
        EXPECT_TRUE(complaints_[0].contains(name)) << name << ": " << complaints_[0].toStdString();
    }
    EXPECT_FALSE(complaints_[0].contains("good.jpg"));
    ASSERT_EQ(all<Photo>().size(), 1U);
    EXPECT_EQ(all<Photo>().front().file_name, "good.jpg");
    page_->add_photos({write("whole preview.jpg", with_preview)});
    EXPECT_EQ(all<Photo>().size(), 2U);
}

TEST_F(NotesAndPhotos, APictureOnTheClipboardIsPasted) {
    QImage picture(40, 30, QImage::Format_RGB32);
    picture.fill(Qt::darkGreen);
    QMimeData data;
    data.setImageData(picture);
    EXPECT_TRUE(page_->photos().add_from(data));
    ASSERT_EQ(all<Photo>().size(), 1U);
    QMimeData words;
    words.setText("no picture");
    EXPECT_FALSE(page_->photos().add_from(words));
    EXPECT_EQ(all<Photo>().size(), 1U);
}

class PhonesFolder : public NotesAndPhotos {
  protected:
    void SetUp() override {
        NotesAndPhotos::SetUp();
        ASSERT_TRUE(QDir().mkpath(folder_.filePath("phone")));
    }
    bool comes(std::size_t photos) {
        return QTest::qWaitFor([&] { return all<Photo>().size() == photos; }, patience_ms);
    }
    /// Long enough for anything that would come to have come.
    void wait() { QTest::qWait(700); }
    void watch() {
        page_->photos().watch_folder(folder_.filePath("phone"));
        QTest::qWait(20); // what comes now came afterwards
    }
};

TEST_F(PhonesFolder, ANewPictureIsTakenOnceItIsWholeAndNothingThereIsTouched) {
    write("phone/before.jpg", jpeg(1));
    QTest::qWait(20);
    watch();
    const QByteArray bytes = jpeg(2);
    QFile file(folder_.filePath("phone/IMG_2.jpg"));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(bytes.left(bytes.size() / 2));
    file.flush();
    QTest::qWait(250); // it stands still for longer than others settle
    EXPECT_TRUE(all<Photo>().empty());
    file.write(bytes.mid(bytes.size() / 2));
    file.close();
    ASSERT_TRUE(comes(1));
    EXPECT_EQ(all<Photo>().front().file_name, "IMG_2.jpg");
    EXPECT_EQ(all<Photo>().front().stage_id, clearance_stage);
    wait();
    EXPECT_EQ(all<Photo>().size(), 1U); // what lay there before stays there
    EXPECT_EQ(read(folder_.filePath("phone/IMG_2.jpg")), bytes);
    EXPECT_TRUE(complaints_.isEmpty()) << complaints_.join('\n').toStdString();
}

TEST_F(PhonesFolder, TheSameContentIsTakenOnceUnderWhateverName) {
    watch();
    write("phone/a.jpg", jpeg(2));
    ASSERT_TRUE(comes(1));
    write("phone/b.jpg", jpeg(2));
    write("phone/c.jpg", jpeg(3));
    ASSERT_TRUE(comes(2));
    wait();
    EXPECT_EQ(all<Photo>().size(), 2U);
    EXPECT_EQ(all<Photo>().back().file_name, "c.jpg");
}

TEST_F(PhonesFolder, WhatIsNoPictureIsToldOnceByNameAndOtherFilesAreLeftAlone) {
    watch();
    write("phone/cut.jpg", jpeg(2).left(900));
    write("phone/list.txt", "milk");
    ASSERT_TRUE(QTest::qWaitFor([&] { return !complaints_.isEmpty(); }, patience_ms));
    wait();
    ASSERT_EQ(complaints_.size(), 1);
    EXPECT_TRUE(complaints_[0].contains("cut.jpg"));
    EXPECT_TRUE(all<Photo>().empty());
}

// The window was closed while the phone uploaded; the folder is remembered.
TEST_F(PhonesFolder, WhatCameWhileNobodyWatchedIsTakenTheNextTime) {
    watch();
    write("phone/first.jpg", jpeg(2));
    ASSERT_TRUE(comes(1));
    wait();
    page_->take(nullptr, 0);
    page_.reset();
    write("phone/second.jpg", jpeg(3));
    open_page();
    ASSERT_TRUE(comes(2));
    EXPECT_EQ(all<Photo>().back().file_name, "second.jpg");
    page_->photos().watch_folder({});
    write("phone/third.jpg", jpeg(4));
    wait();
    EXPECT_EQ(all<Photo>().size(), 2U); // nobody watches any more
}

} // namespace
} // namespace rodway
