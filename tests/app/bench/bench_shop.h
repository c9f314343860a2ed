#pragma once

#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <QTest>
#include <memory>
#include <string>
#include <vector>

#include "app/bench/bench_page.h"
#include "app/edit_stack/shop_session.h"
#include "db/build_store.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/record_fields.h"

namespace rodway::tests {

inline constexpr const char* bench_now = "2026-11-30T12:00:00Z";

/// A shop file written record by record, as another program would.
class BenchShop {
  public:
    BenchShop() {
        auto made = ShopFile::create(path());
        EXPECT_TRUE(made.ok());
        shop_ = std::make_unique<ShopFile>(std::move(made).value());
    }
    [[nodiscard]] std::string path() const { return folder_.filePath("shop.rodway").toStdString(); }

    [[nodiscard]] std::int64_t next_id(RecordKind kind) { return *new_id(*shop_, kind); }
    [[nodiscard]] Build build(std::int64_t id) { return *load_build(*shop_, id); }

    template <typename Record>
    std::int64_t add(Record record) {
        record.id = next_id(RecordShape<Record>::kind);
        apply_now(edits_to_create(record));
        return record.id;
    }
    template <typename Record>
    void change(const Record& before, const Record& after) {
        apply_now(edits_to_change(before, after));
    }
    void apply_now(std::vector<Edit> edits) {
        const auto done = apply(*shop_, std::move(edits), "KL", bench_now);
        ASSERT_TRUE(done.ok()) << done.error().field << " " << done.error().value;
    }

    std::int64_t add_build(const std::string& name,
                           const std::optional<std::string>& promised = {}) {
        Build build;
        build.name = name;
        build.customer = name + "'s owner";
        build.engine = "inline six, 261";
        build.promised = promised;
        return add(build);
    }
    /// So many builds without a plan, in one act.
    void add_builds(int count) {
        std::vector<Edit> edits;
        const std::int64_t first = next_id(RecordKind::build);
        for (int which = 0; which < count; ++which) {
            Build build;
            build.id = first + which;
            build.name = "Build " + std::to_string(build.id);
            build.customer = "Arn & Sons";
            build.engine = "inline six, 261";
            const auto more = edits_to_create(build);
            edits.insert(edits.end(), more.begin(), more.end());
        }
        apply_now(std::move(edits));
    }
    std::int64_t add_stage(std::int64_t build_id, int ordinal, const std::string& title) {
        Stage stage;
        stage.build_id = build_id;
        stage.ordinal = ordinal;
        stage.title = title;
        return add(stage);
    }
    std::int64_t add_step(std::int64_t stage_id, int ordinal, const std::string& title,
                          bool ticked = false) {
        Step step;
        step.stage_id = stage_id;
        step.ordinal = ordinal;
        step.title = title;
        if (ticked) {
            step.ticked_by = "KL";
            step.ticked_at = bench_now;
        }
        return add(step);
    }
    std::int64_t add_part(std::int64_t build_id, const std::string& item,
                          const std::string& promised, std::optional<std::int64_t> step_id = {}) {
        PartRecord part;
        part.build_id = build_id;
        part.item = item;
        part.step_id = step_id;
        part.needed = "2026-11-01";
        part.ordered = "2026-11-02";
        part.promised = promised;
        return add(part);
    }
    std::int64_t add_cure(std::int64_t build_id, const std::string& place,
                          const std::string& applied_at, std::optional<int> full_minutes,
                          std::optional<std::int64_t> step_id = {}) {
        Cure cure;
        cure.build_id = build_id;
        cure.step_id = step_id;
        cure.place = place;
        cure.full_minutes = full_minutes;
        cure.applied_by = "KL";
        cure.applied_at = applied_at;
        return add(cure);
    }
    std::int64_t add_question(std::int64_t build_id, const std::string& subject) {
        Approval approval;
        approval.build_id = build_id;
        approval.subject = subject;
        approval.answer = ApprovalAnswer::asked;
        approval.asked_at = bench_now;
        return add(approval);
    }

  private:
    QTemporaryDir folder_;
    std::unique_ptr<ShopFile> shop_;
};

/// The real page on such a shop, as of `bench_now` unless a test moves its clock.
class BenchPageTest : public ::testing::Test {
  protected:
    static constexpr int patience_ms = 20000;

    void open(Clock clock = [] { return std::string(bench_now); }) {
        auto opened = ShopFile::open(shop_.path());
        ASSERT_TRUE(opened.ok());
        session_ = std::make_unique<ShopSession>(std::move(opened).value(), "MH");
        page_ = std::make_unique<BenchPage>(std::move(clock));
        // As the window does it.
        QObject::connect(session_.get(), &ShopSession::changed, page_.get(), &BenchPage::refresh);
        page_->resize(1100, 700);
        page_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(page_.get()));
        page_->take(session_.get(), 0);
        settle();
    }
    void TearDown() override {
        if (page_) {
            page_->take(nullptr, 0);
        }
        page_.reset();
        session_.reset();
    }
    /// Until what is seen is worked out.
    void settle() {
        QTest::qWait(150); // the page looks at its rows when nobody scrolls any more
        ASSERT_TRUE(QTest::qWaitFor([&] { return !page_->standings().busy(); }, patience_ms));
    }
    BenchModel& model() { return page_->model(); }
    BenchTable& table() { return *page_->table(); }
    QString cell(int row, BenchModel::Column column) {
        return model().index(row, column).data().toString();
    }
    QString whole(int row, BenchModel::Column column) {
        return model().index(row, column).data(Qt::AccessibleTextRole).toString();
    }
    QStringList names() {
        QStringList names;
        for (int row = 0; row < model().rowCount(); ++row) {
            names << cell(row, BenchModel::build_column).section('\n', 0, 0);
        }
        return names;
    }
    template <typename Widget>
    Widget* child(const char* name) {
        auto* found = page_->findChild<Widget*>(name);
        EXPECT_NE(found, nullptr) << name;
        return found;
    }

    BenchShop shop_;
    std::unique_ptr<ShopSession> session_;
    std::unique_ptr<BenchPage> page_;
};

} // namespace rodway::tests
