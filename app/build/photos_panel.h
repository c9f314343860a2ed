#pragma once

#include "app/build/build_panel.h"
#include "app/work/photo_folder.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QListWidgetItem;
class QMimeData;
class QPushButton;

namespace rodway {

class PlaceChooser;
class ThumbnailMaker;

/// The photos of the build, its stage or its step. They are dropped, pasted or chosen, or come by
/// themselves from the folder to which a phone uploads. Originals stay as they are.
class PhotosPanel : public BuildPanel {
    Q_OBJECT

  public:
    PhotosPanel(Clock clock, PlaceChooser& place, PhotoFolder::Patience patience,
                QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    void choose(std::int64_t photo_id);
    /// Copies pictures into the shop; each that isn't one is named.
    void add(const QStringList& files);
    /// Files and pictures that were dropped or pasted; false if there are none among it.
    bool add_from(const QMimeData& dropped);
    void watch_folder(const QString& folder);

  private:
    QWidget* make_words();
    QWidget* make_folder();
    void show_photos();
    void show_words();
    void show_folder();
    void show_icon(const QString& file, const QIcon& icon);
    void keep_words();
    void open_chosen();
    void remove_chosen();
    bool take_from_folder(const QString& file);
    [[nodiscard]] const Photo* photo(std::int64_t id) const;
    [[nodiscard]] const Photo* chosen() const;

    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    PlaceChooser& place_;
    ThumbnailMaker* thumbnails_;
    PhotoFolder* phone_;
    bool filling_ = false;
    Photo in_words_; ///< the photo whose words are in the boxes, as it stood then
    QLabel* empty_;
    QListWidget* photos_;
    QWidget* words_;
    QLabel* name_;
    QLineEdit* caption_;
    QLineEdit* position_;
    QCheckBox* in_book_;
    QLabel* folder_;
    QPushButton* no_folder_;
};

} // namespace rodway
