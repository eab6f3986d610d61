// What is chosen goes into the hand of the place tool; the canvas does the rest.
#include "desk/panels/machines_panel.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QStandardPaths>
#include <QTimer>
#include <QVBoxLayout>

#include "desk/models/places.h"
#include "desk/models/shelf.h"
#include "desk/tools/sketching.h"

namespace kerfdraft::desk {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

std::filesystem::path shelfPath() {
  return QStandardPaths::writableLocation(QStandardPaths::AppConfigLocation).toStdString() +
         "/own-machines.json";
}

}  // namespace

MachinesPanel::MachinesPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  search_ = new QLineEdit(this);
  search_->setPlaceholderText(tr("search: saw, planer, 10 in, collector"));
  search_->setAccessibleName(tr("Search machines and collectors"));
  search_->setClearButtonEnabled(true);
  list_ = new QListWidget(this);
  list_->setAccessibleName(tr("Machines and collectors"));
  list_->setWordWrap(true);
  list_->setAlternatingRowColors(true);
  list_->setSpacing(2);
  says_ = new QLabel(this);
  says_->setWordWrap(true);
  label_ = new QWidget(this);
  auto* form = new QFormLayout(label_);
  form->setContentsMargins(0, 0, 0, 0);
  inlet_ = new QLineEdit(label_);
  inlet_->setObjectName(QStringLiteral("inlet"));
  form->addRow(tr("Inlet bore"), inlet_);
  label_only_ = new QWidget(label_);
  auto* only = new QFormLayout(label_only_);
  only->setContentsMargins(0, 0, 0, 0);
  flow_ = new QLineEdit(label_only_);
  flow_->setObjectName(QStringLiteral("flow"));
  flow_->setToolTip(tr("Air with nothing connected, as the label says."));
  suction_ = new QLineEdit(label_only_);
  suction_->setObjectName(QStringLiteral("suction"));
  suction_->setToolTip(tr("Suction with the inlet shut, as the label says."));
  only->addRow(tr("Label: flow"), flow_);
  only->addRow(tr("Label: suction"), suction_);
  form->addRow(label_only_);
  put_ = new QPushButton(tr("Put it in the shop"), this);
  keep_ = new QPushButton(tr("Keep the picked machine as my own"), this);
  keep_->setToolTip(tr("It is then offered here in every shop, with its ports and figures."));
  auto* column = new QVBoxLayout(this);
  column->addWidget(search_);
  column->addWidget(list_, 1);
  column->addWidget(says_);
  column->addWidget(label_);
  column->addWidget(put_);
  column->addWidget(keep_);
  const auto take_current = [this] {
    if (list_->currentRow() >= 0) {
      take(static_cast<std::size_t>(list_->currentRow()));
    }
  };
  connect(search_, &QLineEdit::textChanged, this, &MachinesPanel::refill);
  connect(search_, &QLineEdit::returnPressed, this, take_current);
  connect(list_, &QListWidget::itemActivated, this, take_current);
  connect(list_, &QListWidget::currentRowChanged, this, &MachinesPanel::showChosen);
  connect(put_, &QPushButton::clicked, this, take_current);
  connect(keep_, &QPushButton::clicked, this, &MachinesPanel::keepPicked);
  // The hand that took the tool goes on to type what it wants.
  connect(&bench_.look, &Look::panelAsked, this, [this](const QString& key) {
    if (key == QStringLiteral("machines")) {
      QTimer::singleShot(0, search_, [this] {
        search_->setFocus();
        search_->selectAll();
      });
    }
  });
  connect(&bench_.look, &Look::unitsChanged, this, &MachinesPanel::refill);
  const auto show_keep = [this] {
    const auto& picked = bench_.look.selection();
    keep_->setVisible(picked.size() == 1 && machineOf(bench_.document.project(), *picked.begin()) != nullptr);
  };
  connect(&bench_.look, &Look::selectionChanged, this, show_keep);
  show_keep();
  refill();
}

void MachinesPanel::refill() {
  const base::UnitSystem units = bench_.look.units();
  const bool us = units == base::UnitSystem::Us;
  inlet_->setPlaceholderText(us ? tr("6 in, assumed where empty") : tr("150 mm, assumed where empty"));
  flow_->setPlaceholderText(us ? tr("1200 cfm") : tr("2000 m3/h"));
  suction_->setPlaceholderText(us ? tr("10 in w.g.") : tr("2500 Pa"));
  const auto own = readShelf(shelfPath());
  own_ = own.value_or(std::vector<shop::Machine>{});
  const auto found =
      offers(bench_.document.project(), *bench_.catalogue, own_, search_->text().toStdString(), units);
  offers_ = found.value_or(std::vector<Offer>{});
  list_->clear();
  for (const Offer& offer : offers_) {
    list_->addItem(offer.wants.empty() ? text(offer.name) : text(offer.name + "\n" + offer.wants));
  }
  if (!offers_.empty()) {
    list_->setCurrentRow(0);
  }
  showChosen();
  if (!own) {
    says_->setText(tr("Your own machines cannot be read: %1").arg(text(own.error().text())));
  } else if (!found) {
    says_->setText(text(found.error().text()));
  } else if (offers_.empty()) {
    says_->setText(tr("Nothing holds these words. Take the nearest kind, and type what yours wants."));
  }
}

void MachinesPanel::showChosen() {
  const int row = list_->currentRow();
  const bool any = row >= 0 && static_cast<std::size_t>(row) < offers_.size();
  put_->setEnabled(any);
  if (!any) {
    label_->hide();
    return;
  }
  const Offer& offer = offers_[static_cast<std::size_t>(row)];
  says_->setText(text(offer.ports + ". " + offer.says));
  label_->setVisible(offer.kind == OfferKind::Collector || offer.kind == OfferKind::LabelCollector);
  label_only_->setVisible(offer.kind == OfferKind::LabelCollector);
}

bool MachinesPanel::take(std::size_t index) {
  if (index >= offers_.size()) {
    return false;
  }
  DocumentIds ids(bench_.document);
  const QString usual_inlet =
      bench_.look.units() == base::UnitSystem::Us ? QStringLiteral("6 in") : QStringLiteral("150 mm");
  // Flow and suction of a label are never taken from the example.
  const LabelTyped label{
      flow_->text().trimmed().toStdString(), suction_->text().trimmed().toStdString(),
      (inlet_->text().trimmed().isEmpty() ? usual_inlet : inlet_->text().trimmed()).toStdString()};
  const auto taken = takeOffer(offers_[index], bench_.document.project(), *bench_.catalogue, own_, label,
                               bench_.look.units(), ids);
  if (!taken) {
    says_->setText(text(taken.error().text()));
    return false;
  }
  InHand hand;
  hand.machine = taken->machine;
  hand.collector = taken->collector;
  bench_.look.setInHand(std::move(hand));
  bench_.look.askTool(QStringLiteral("place"));
  return true;
}

void MachinesPanel::keepPicked() {
  const auto& picked = bench_.look.selection();
  const shop::Machine* machine =
      picked.size() == 1 ? machineOf(bench_.document.project(), *picked.begin()) : nullptr;
  if (machine == nullptr) {
    return;
  }
  const auto kept = keepOnShelf(shelfPath(), *machine);
  const QString name = text(machine->name);
  refill();
  says_->setText(kept ? tr("%1 is now offered in every shop.").arg(name) : text(kept.error().text()));
}

}  // namespace kerfdraft::desk
