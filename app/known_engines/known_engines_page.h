#pragma once

#include <vector>

#include "app/window/place_page.h"
#include "core/build/records.h"

class QLabel;
class QListWidget;
class QPushButton;
class QTableWidget;

namespace rodway {

class TypedForm;

/// The engines whose geometry the shop keeps for next time: versions, who measured them, how well
/// each size is known; kept from builds, shared as files, and begun from.
class KnownEnginesPage : public PlacePage {
    Q_OBJECT

  public:
    explicit KnownEnginesPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] bool shows(RecordKind kind) const override {
        return kind == RecordKind::known_engine;
    }
    void go_to_record(const RecordRef& record) override;

  signals:
    /// A new build is to begin from this known engine.
    void build_wanted(qint64 known_engine_id);

  private:
    QWidget* make_left();
    QWidget* make_right();
    [[nodiscard]] const KnownEngine* selected() const;
    void select(std::int64_t id);
    void show_selected();
    void show_sizes(const KnownEngine& engine);
    void keep_size(int row);
    void keep_words();
    void keep_from_build();
    void import_file();
    void export_file();
    void let_go();

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::vector<KnownEngine> engines_;
    std::optional<KnownEngine> shown_;
    bool filling_ = false;
    QListWidget* list_;
    QLabel* empty_;
    QWidget* right_;
    QLabel* about_;
    TypedForm* form_;
    QTableWidget* sizes_;
    QPushButton* keep_from_build_;
    QPushButton* import_;
    QPushButton* export_;
    QPushButton* begin_;
    QPushButton* let_go_;
};

} // namespace rodway
