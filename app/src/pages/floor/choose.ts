// Which machines the Floor shows: by the state of the most urgent task, by cell, by a piece of the name, kind or key.

import type { FloorMachine, TaskState, Titled } from '../../wire/contract';
import { folded } from '../../parts/folded';
import { urgencyOf } from '../../parts/states';

export interface Choice {
  state: TaskState | '';
  cell: string;
  search: string;
}

/** @param kindTitle the title of a kind's key, searched too */
export function chosen(machines: readonly FloorMachine[], choice: Choice, kindTitle: (key: string) => string) {
  const search = folded(choice.search);
  return machines.filter(
    (machine) =>
      (choice.state === '' || urgencyOf(machine) === choice.state) &&
      (choice.cell === '' || machine.cell === choice.cell) &&
      folded(`${machine.name} ${machine.key} ${kindTitle(machine.kind)}`).includes(search),
  );
}

export interface CellGroup {
  cell: Titled;
  machines: FloorMachine[];
}

/** The machines under their cells, both in the shop's order; a cell without machines is left out. */
export function byCell(machines: readonly FloorMachine[], cells: readonly Titled[]): CellGroup[] {
  const known = new Set(cells.map((cell) => cell.key));
  const strays = [...new Set(machines.map((machine) => machine.cell).filter((key) => !known.has(key)))];
  return [...cells, ...strays.map((key) => ({ key, title: key }))]
    .map((cell) => ({ cell, machines: machines.filter((machine) => machine.cell === cell.key) }))
    .filter((group) => group.machines.length > 0);
}
