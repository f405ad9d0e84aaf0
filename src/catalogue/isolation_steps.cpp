#include "src/catalogue/isolation_steps.h"

#include <array>

namespace hw::catalogue {

std::span<const IsolationStep> isolation_steps() {
  static constexpr std::array<IsolationStep, 6> steps{{
      {"prepare",
       "Know each energy of this machine, how it is cut off and let off, and whom it concerns. Tell them that the "
       "machine will be shut down.",
       "Jede Energie der Maschine kennen, wie sie abgeschaltet und abgebaut wird und wen es betrifft. Den Betroffenen "
       "sagen, dass die Maschine abgeschaltet wird."},
      {"shut-down",
       "End the program, drive hanging axes down or onto their props, then shut the control down in the usual way.",
       "Programm beenden, hängende Achsen absenken oder auf ihre Stützen fahren, dann die Steuerung wie üblich "
       "herunterfahren."},
      {"isolate", "Cut the machine off at every isolation point of this card, also where it has supplies of their own.",
       "Die Maschine an jeder Trennstelle dieser Karte abtrennen, auch an eigenen Einspeisungen."},
      {"lock",
       "Everybody who works on it puts a lock and a tag of their own on, with name and date, and keeps the key.",
       "Alle, die daran arbeiten, bringen ihr eigenes Schloss und Schild mit Name und Datum an und behalten den "
       "Schlüssel."},
      {"release",
       "Let off, discharge, block or prop every stored energy of this card. What can build up again is watched.",
       "Jede gespeicherte Energie dieser Karte ablassen, entladen, blockieren oder abstützen. Was sich wieder aufbauen "
       "kann, wird beobachtet."},
      {"verify",
       "Nobody in the machine: try to start it, then set the switches to off again. See gauges at zero and props in "
       "place; have it proved dead.",
       "Niemand ist in der Maschine: Einschalten versuchen, dann die Schalter wieder auf Aus. Manometer auf null, "
       "Stützen eingesetzt; Spannungsfreiheit feststellen lassen."},
  }};
  return steps;
}

std::span<const IsolationStep> way_back_steps() {
  static constexpr std::array<IsolationStep, 4> steps{{
      {"tools-out", "Tools and old parts are out and counted, guards are back, the machine is whole.",
       "Werkzeuge und alte Teile sind heraus und gezählt, Schutzeinrichtungen wieder dran, die Maschine ist "
       "vollständig."},
      {"people-clear", "Everybody stands clear and knows that the energies come back.",
       "Alle stehen frei und wissen, dass die Energien wiederkommen."},
      {"locks-off", "Whoever put a lock on takes it off, nobody else.",
       "Jedes Schloss nimmt ab, wer es angebracht hat, sonst niemand."},
      {"tell-people",
       "Energies come back and props come out as the builder's manual says. Tell everybody concerned that the machine "
       "runs again.",
       "Energien kommen wieder und Stützen heraus, wie das Handbuch des Herstellers sagt. Allen Betroffenen sagen, "
       "dass "
       "die Maschine wieder läuft."},
  }};
  return steps;
}

std::span<const IsolationCaution> isolation_cautions() {
  static constexpr std::array<IsolationCaution, 4> cautions{{
      {"The builder's manual, local codes and licensed trades go before this card.",
       "Das Handbuch des Herstellers, die örtlichen Vorschriften und zugelassene Fachkräfte gehen dieser Karte vor."},
      {"It names the usual energies of this kind of machine. Look for what this one has besides: a loader, a robot, a "
       "filter unit with its own supply.",
       "Sie nennt die üblichen Energien dieser Maschinenart. Nachsehen, was diese Maschine außerdem hat: einen Lader, "
       "einen Roboter, eine Filteranlage mit eigener Einspeisung.",
       CautionScope::isolated_stop},
      {"Some circuits stay live behind the main switch: its incoming terminals, lighting, sockets. A plate or wires of "
       "a "
       "colour of their own, often orange, tell of them.",
       "Manche Stromkreise bleiben trotz Hauptschalter unter Spannung: seine Eingangsklemmen, Beleuchtung, Steckdosen. "
       "Ein Schild oder Adern in eigener Farbe, oft orange, weisen darauf hin.",
       CautionScope::isolated_stop},
      {"No card can say that a machine is without danger. Whoever puts hands in verifies it first.",
       "Keine Karte kann sagen, dass eine Maschine ohne Gefahr ist. Wer hineingreift, prüft es zuerst selbst."},
  }};
  return cautions;
}

}  // namespace hw::catalogue
