#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QApplication>
#include <QListWidget>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "app/build/ask_panel.h"
#include "app/build/build_page.h"
#include "app/widgets/typed_form.h"
#include "core/build/records.h"
#include "db/build_records.h"
#include "db/edits.h"

namespace rodway {

/// Texts that a program which takes words for anything else would trip over.
inline const QStringList& hostile_texts() {
    static const QStringList texts{"<b>bold</b><img src=x onerror=alert(1)>",
                                   "%1 %2 %n %L1",
                                   "'; DROP TABLE build; --",
                                   "\"quoted\" & 'so'",
                                   QString::fromUtf8("Überströmöffnung 漢字 \u202eevil\u202c"),
                                   QString(280, 'W')};
    return texts;
}

/// The page of one build as the window shows it, with a clock that stands still: a stage with two
/// steps and a gate, and another stage behind it.
class OpenBuild : public ::testing::Test {
  protected:
    static constexpr int patience_ms = 20000;
    static constexpr std::int64_t clearance_stage = 1;
    static constexpr std::int64_t oil_stage = 2;

    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        auto shop = ShopFile::create(folder_.filePath("shop.rodway").toStdString());
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "MH");
        write_build();
        open_page();
    }
    void TearDown() override {
        page_->take(nullptr, 0);
        page_.reset();
    }

    /// Of the kinds a test wants beside these.
    template <typename Record>
    void put(const Record& record) {
        const auto done = apply(session_->shop(), edits_to_create(record), "MH", now_);
        ASSERT_TRUE(done.ok()) << done.error().field << ' ' << done.error().value;
    }
    virtual std::string gate_needs() const { return "steps; sheet rod_clearance; cures"; }
    void write_build() {
        Build build;
        build.id = 1;
        build.name = "Halden V8";
        build.customer = "Ada Brandvold";
        build.engine = "Halden 402 V8";
        build.promised = "2027-03-12";
        put(build);
        put(Stage{clearance_stage, 1, 0, "Clearance", "barring_over"});
        put(Stage{oil_stage, 1, 1, "Oil", std::nullopt});
        Step walked;
        walked.id = 1;
        walked.stage_id = clearance_stage;
        walked.title = "Pushrods walked";
        walked.detail = "In the order of full lift.";
        walked.sheet_kind = "rod_clearance";
        put(walked);
        Step sealed;
        sealed.id = 2;
        sealed.stage_id = clearance_stage;
        sealed.ordinal = 1;
        sealed.title = "Rails sealed";
        sealed.part_roles = "intake_bolt";
        put(sealed);
        Step oil;
        oil.id = 3;
        oil.stage_id = oil_stage;
        oil.title = "Oil at every rocker";
        put(oil);
        put(Gate{1, clearance_stage, 0, "Nothing touches", gate_needs(), std::nullopt});
    }
    void open_page() {
        page_ =
            std::make_unique<BuildPage>([this] { return now_; }, PhotoFolder::Patience{60, 500});
        page_->resize(1160, 700);
        QObject::connect(session_.get(), &ShopSession::changed, page_.get(), &BuildPage::refresh);
        QObject::connect(page_.get(), &PlacePage::failed, page_.get(),
                         [this](const QString& text) { complaints_ << text; });
        page_->take(session_.get(), 1);
        page_->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page_.get()));
        settle();
    }
    /// Until it has been worked out how the build stands.
    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !page_->is_busy(); }, patience_ms));
    }
    void at(const char* now) {
        now_ = now;
        page_->look_at_clock();
        settle();
    }

    template <typename Widget>
    Widget& child(const char* name) {
        auto* found = page_->findChild<Widget*>(name);
        if (found == nullptr) {
            throw std::runtime_error(std::string("nothing is called ") + name);
        }
        return *found;
    }
    QAbstractButton& button(const char* name) { return child<QAbstractButton>(name); }
    QStringList rows(const char* list) {
        QStringList texts;
        auto& found = child<QListWidget>(list);
        for (int row = 0; row < found.count(); ++row) {
            texts << found.item(row)->text();
        }
        return texts;
    }
    /// Chooses the first row that contains these words; false if none does.
    bool choose(const char* list, const QString& words) {
        auto& found = child<QListWidget>(list);
        for (int row = 0; row < found.count(); ++row) {
            if (found.item(row)->text().contains(words)) {
                found.setCurrentRow(row);
                return true;
            }
        }
        return false;
    }
    bool shown(const char* list, const QString& words) {
        return rows(list).join('\n').contains(words);
    }
    QString words_of(const char* label) { return child<QLabel>(label).text(); }

    template <typename Record>
    std::vector<Record> all() {
        auto loaded = load_records<Record>(session_->shop(), 1);
        EXPECT_TRUE(loaded.ok());
        return std::move(loaded).value();
    }
    Reading clearance(std::int64_t id, const char* text, const char* position = "3I") const {
        Reading reading;
        reading.id = id;
        reading.build_id = 1;
        reading.quantity = "rod_clearance";
        reading.position = position;
        reading.text = text;
        reading.unit = "in";
        reading.taken_by = "MH";
        reading.taken_at = now_;
        return reading;
    }
    /// As somebody else's window would write it, seen a moment later.
    template <typename Record>
    void put_and_see(const Record& record) {
        put(record);
        session_->look_for_changes();
        settle();
    }
    void tick_both() {
        for (const char* title : {"Pushrods walked", "Rails sealed"}) {
            ASSERT_TRUE(choose("steps", title));
            auto& steps = child<QListWidget>("steps");
            QTest::keyClick(&steps, Qt::Key_Space);
        }
        settle();
    }
    void sign() {
        button("sign_off").click();
        auto* ask = asking("Sign the stage off");
        ask->take_typed();
        settle();
    }
    AskPanel* asking(const QString& title) {
        for (AskPanel* found : page_->findChildren<AskPanel*>()) {
            if (found->accessibleName() == title && found->is_open()) {
                return found;
            }
        }
        throw std::runtime_error("not asked: " + title.toStdString());
    }

    QTemporaryDir folder_;
    std::string now_ = "2026-11-30T10:00:00Z";
    std::unique_ptr<ShopSession> session_;
    std::unique_ptr<BuildPage> page_;
    QStringList complaints_;
};

} // namespace rodway
