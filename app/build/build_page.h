#pragma once

#include <QTimer>
#include <memory>

#include "app/build/build_shown.h"
#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"
#include "app/work/newest_request.h"
#include "app/work/photo_folder.h"

class QLabel;
class QStackedWidget;
class QTabWidget;

namespace rodway {

class BuildPanel;
class CuresPanel;
class GatesPanel;
class ItemsPanel;
class JobPanel;
class NotesPanel;
class PhotosPanel;
class PlaceChooser;
class StagePanel;
class WordListView;

/// One build, as whoever builds it has it open all day: the rail of its stages, and of the stage
/// chosen there its steps and gates; what cures and what is open; notes and photos; the job sheet.
///
/// How the build stands is worked out off the window's thread; until then the page shows what is
/// written, and how it stood before.
class BuildPage : public PlacePage {
    Q_OBJECT

  public:
    explicit BuildPage(Clock clock, PhotoFolder::Patience patience = {}, QWidget* parent = nullptr);
    ~BuildPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] bool shows(RecordKind kind) const override;
    void go_to_record(const RecordRef& record) override;

    enum class Tab { stage, gates, cures_and_items, notes_and_photos, job };
    void show_tab(Tab tab);
    void show_stage(std::int64_t stage_id);
    /// Copies picture files into the shop; they belong where the notes and photos shown do.
    void add_photos(const QStringList& files);
    /// Looks at the clock: what cures may have come to another stage.
    void look_at_clock();
    /// True while it is being worked out how the build stands.
    [[nodiscard]] bool is_busy() const { return request_.busy(); }
    [[nodiscard]] const BuildShown* shown() const { return shown_ ? &*shown_ : nullptr; }

    [[nodiscard]] CuresPanel& cures() { return *cures_; }
    [[nodiscard]] ItemsPanel& items() { return *items_; }
    [[nodiscard]] PhotosPanel& photos() { return *photos_; }
    [[nodiscard]] JobPanel& job() { return *job_; }

  signals:
    void valvetrain_wanted();
    void sheet_wanted(const QString& kind);
    void parts_wanted();
    void account_wanted();

  protected:
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    QWidget* make_head();
    QWidget* make_rail();
    QWidget* make_tabs();
    QWidget* make_remarks();
    void connect_panels();
    void ask_standing();
    void show_everything();
    void show_head();
    void show_rail();
    void show_panels();
    [[nodiscard]] QString next_text() const;
    [[nodiscard]] QString stage_text(const StageWithSteps& stage) const;
    [[nodiscard]] std::int64_t stage_in_hand() const;
    [[nodiscard]] std::optional<std::int64_t> stage_of(const RecordRef& record) const;

    Clock clock_;
    PhotoFolder::Patience patience_;
    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::optional<BuildShown> shown_;
    NewestRequest request_;
    QTimer minute_;
    bool chosen_by_hand_ = false; ///< whoever chose a stage stays there
    QStackedWidget* stack_;
    QLabel* title_;
    QLabel* details_;
    QLabel* next_;
    WordListView* rail_;
    QTabWidget* tabs_;
    StagePanel* stage_;
    GatesPanel* gates_;
    CuresPanel* cures_;
    ItemsPanel* items_;
    PlaceChooser* place_;
    NotesPanel* notes_;
    PhotosPanel* photos_;
    JobPanel* job_;
    std::vector<BuildPanel*> panels_;
};

} // namespace rodway
