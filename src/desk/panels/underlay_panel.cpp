// A file that was chosen is read first: only what can be read becomes part of the project.
#include "desk/panels/underlay_panel.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "desk/models/underlay.h"

namespace kerfdraft::desk {
namespace {

constexpr int kLeastStrength = 5;
constexpr int kUsualStrength = 50;
constexpr int kMostStrength = 100;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

UnderlayPanel::UnderlayPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  choose_ = new QPushButton(tr("Choose a drawing or picture …"), this);
  choose_->setToolTip(
      tr("A DXF drawing, or a picture of a sketch (PNG, JPEG). It can be dropped on the window too."));
  file_ = new QLabel(this);
  file_->setWordWrap(true);
  file_->setTextFormat(Qt::PlainText);
  says_ = new QLabel(this);
  says_->setWordWrap(true);
  says_->setTextFormat(Qt::PlainText);
  shown_ = new QCheckBox(tr("Show it"), this);
  strength_ = new QSlider(Qt::Horizontal, this);
  strength_->setRange(kLeastStrength, kMostStrength);
  strength_->setAccessibleName(tr("How strongly it is shown, in percent"));
  strength_->setToolTip(strength_->accessibleName());
  hand_ = new QPushButton(tr("Take it in hand"), this);
  hand_->setToolTip(tr("Scale it by two places that you know the distance of, drag it, turn it."));
  layers_title_ = new QLabel(tr("Layers, with the number of lines on each"), this);
  layers_ = new QListWidget(this);
  layers_->setAccessibleName(tr("Layers of the drawing"));
  remove_ = new QPushButton(tr("Take it away"), this);
  auto* row = new QHBoxLayout;
  row->addWidget(shown_);
  row->addWidget(strength_, 1);
  auto* column = new QVBoxLayout(this);
  column->addWidget(choose_);
  column->addWidget(file_);
  column->addWidget(says_);
  column->addLayout(row);
  column->addWidget(hand_);
  column->addWidget(layers_title_);
  column->addWidget(layers_, 1);
  column->addWidget(remove_);
  column->addStretch();
  connect(choose_, &QPushButton::clicked, this, &UnderlayPanel::ask);
  connect(hand_, &QPushButton::clicked, this, [this] { bench_.look.askTool(QStringLiteral("underlay")); });
  connect(remove_, &QPushButton::clicked, this, [this] { put(tr("Take the underlay away"), std::nullopt); });
  connect(shown_, &QCheckBox::toggled, this, [this](bool on) {
    if (bench_.document.project().underlay) {
      shop::Underlay out = *bench_.document.project().underlay;
      out.hidden = !on;
      put(on ? tr("Show the underlay") : tr("Hide the underlay"), out);
    }
  });
  connect(strength_, &QSlider::sliderPressed, this,
          [this] { strength_gesture_ = bench_.document.newGesture(); });
  connect(strength_, &QSlider::valueChanged, this, [this](int percent) {
    if (bench_.document.project().underlay) {
      shop::Underlay out = *bench_.document.project().underlay;
      out.strength = *base::Given<base::Ratio>::parse(std::to_string(percent) + " %");
      put(tr("Strength of the underlay"), out,
          strength_->isSliderDown() ? strength_gesture_ : bench_.document.newGesture());
    }
  });
  connect(layers_, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
    if (filling_ || !bench_.document.project().underlay) {
      return;
    }
    const bool on = item->checkState() == Qt::Checked;
    const QString layer = item->data(Qt::UserRole).toString();
    put(on ? tr("Show layer %1").arg(layer) : tr("Hide layer %1").arg(layer),
        withLayer(*bench_.document.project().underlay, layer.toStdString(), on));
  });
  connect(&bench_.document, &Document::projectChanged, this, &UnderlayPanel::refresh);
  connect(&bench_.document, &Document::fileChanged, this, &UnderlayPanel::refresh);
  connect(&bench_.look, &Look::unitsChanged, this, &UnderlayPanel::refresh);
  connect(&bench_.look.sheet(), &UnderlaySheet::changed, this, &UnderlayPanel::refresh);
  connect(&bench_.look, &Look::underlayOffered, this, &UnderlayPanel::choose);
  refresh();
}

void UnderlayPanel::ask() {
  const QString path = QFileDialog::getOpenFileName(
      this, tr("What lies under the plan"), {},
      tr("Drawings and pictures (*.dxf *.DXF *.png *.jpg *.jpeg *.bmp *.gif *.webp);;All files (*)"));
  if (!path.isEmpty()) {
    choose(path.toStdString());
  }
}

void UnderlayPanel::choose(const std::filesystem::path& file) {
  refused_.clear();
  waiting_ = file;
  bench_.look.sheet().want(file);
  refresh();
}

void UnderlayPanel::lay(const std::filesystem::path& file) {
  const SheetContent& content = *bench_.look.sheet().content();
  if (!content.ok()) {
    refused_ = text(content.problem);
    return;
  }
  auto underlay = laidUnder(bench_.document.project(), bench_.document.nameOf(file), content.size());
  if (!underlay) {
    refused_ = text(underlay.error().text());
    return;
  }
  if (content.drawing) {
    for (const files::DxfLayer& layer : content.drawing->layers) {
      if (layer.off) {
        *underlay = withLayer(*underlay, layer.name, false);
      }
    }
  }
  put(tr("Lay %1 under the plan").arg(text(file.filename().string())), *underlay);
  if (refused_.isEmpty()) {
    bench_.look.askTool(QStringLiteral("underlay"));
    bench_.look.showAll();
  }
}

void UnderlayPanel::put(const QString& words, const std::optional<shop::Underlay>& underlay, int gesture) {
  const base::Result<void> made =
      bench_.document.make(words, shop::Edit(shop::SetUnderlay{underlay}), gesture);
  refused_ = made ? QString() : text(made.error().text());
  refresh();
}

void UnderlayPanel::refresh() {
  UnderlaySheet& sheet = bench_.look.sheet();
  if (!waiting_.empty() && !sheet.isReading() && sheet.content()) {
    const std::filesystem::path file = std::exchange(waiting_, {});
    lay(file);  // comes back here, with the project changed or refused
  }
  const std::optional<shop::Underlay>& underlay = bench_.document.project().underlay;
  if (waiting_.empty()) {
    sheet.want(underlay ? bench_.document.besideProject(underlay->file) : std::filesystem::path());
  }
  const std::shared_ptr<const SheetContent>& content = sheet.content();
  const bool there = underlay.has_value();
  const bool readable = there && content && content->ok();
  const QSignalBlocker quiet_shown(shown_);
  const QSignalBlocker quiet_strength(strength_);
  shown_->setVisible(there);
  strength_->setVisible(there);
  hand_->setVisible(readable);
  remove_->setVisible(there);
  file_->setVisible(there);
  if (there) {
    const std::filesystem::path file(underlay->file);
    file_->setText(text(file.filename().string()));
    file_->setToolTip(text(bench_.document.besideProject(underlay->file).string()));
    shown_->setChecked(!underlay->hidden);
    if (!strength_->isSliderDown()) {
      strength_->setValue(underlay->strength ? static_cast<int>(std::lround(underlay->strength->si() * 100))
                                             : kUsualStrength);
    }
  }
  QStringList lines;
  if (!refused_.isEmpty()) {
    lines << refused_;
  }
  if (sheet.isReading()) {
    lines << tr("Reading it …");
  } else if (there && content && !content->ok()) {
    lines << text(content->problem);
  } else if (readable) {
    lines << text(scaleWords(*underlay, content->size(), bench_.look.units()));
    if (content->drawing) {
      const QString skipped = text(skippedWords(*content->drawing));
      if (!skipped.isEmpty()) {
        lines << skipped;
      }
    }
    lines << tr("It is a guide for the hand: nothing is computed from it, and it is not printed.");
  } else if (!there) {
    lines << tr(
        "A drawing of the building or a photographed sketch can lie under the plan, to be drawn over. Two "
        "places whose distance is known give its scale.");
  }
  says_->setText(lines.join(QStringLiteral("\n\n")));
  fillLayers();
}

void UnderlayPanel::fillLayers() {
  const std::optional<shop::Underlay>& underlay = bench_.document.project().underlay;
  const std::shared_ptr<const SheetContent>& content = bench_.look.sheet().content();
  const bool has = underlay && content && content->drawing;
  layers_->setVisible(has);
  layers_title_->setVisible(has);
  const std::vector<UnderlayLayer> layers =
      has ? layersOf(*content->drawing, *underlay) : std::vector<UnderlayLayer>{};
  // Rows stay where they are, so that the one with the focus keeps it.
  filling_ = true;
  while (layers_->count() > static_cast<int>(layers.size())) {
    delete layers_->takeItem(layers_->count() - 1);
  }
  for (std::size_t k = 0; k < layers.size(); ++k) {
    QListWidgetItem* item = layers_->item(static_cast<int>(k));
    if (item == nullptr) {
      item = new QListWidgetItem(layers_);
      item->setFlags(Qt::ItemIsUserCheckable | Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    }
    item->setText(tr("%1 (%2)").arg(text(layers[k].name)).arg(layers[k].strokes));
    item->setData(Qt::UserRole, text(layers[k].name));
    item->setCheckState(layers[k].shown ? Qt::Checked : Qt::Unchecked);
  }
  filling_ = false;
}

}  // namespace kerfdraft::desk
