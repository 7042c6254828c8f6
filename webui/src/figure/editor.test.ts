import { beforeEach, describe, expect, it } from 'vitest';
import { Editor } from './editor.svelte';
import type { Rotation } from './moves';

const half: Rotation = { kind: 'roll', turns: 0.5 };
const full: Rotation = { kind: 'roll', turns: 1 };

let editor: Editor;
beforeEach(() => {
  editor = new Editor();
  editor.insertFigure();
});
const moves = () => editor.item?.moves;
const names = () => editor.sheet.items.map(({ name }) => name);

describe('a rotation', () => {
  it('after an arc comes on a line of its own, and a second one on the same line', () => {
    editor.addMove({ arc: 225 });
    editor.addRotation(half);
    editor.addRotation(full);
    expect(moves()).toEqual([{ arc: 225 }, { line: [half, full] }]);
  });

  it('comes on the line that is chosen, wherever it stands', () => {
    editor.addMove({ line: [] });
    editor.addMove({ arc: 90 });
    editor.choose(0, 0);
    editor.addRotation(half);
    expect(moves()).toEqual([{ line: [half] }, { arc: 90 }]);
    expect(editor.at).toEqual({ item: 0, move: 0 });
  });

  it('begins a figure with a line', () => {
    editor.addRotation(full);
    expect(moves()).toEqual([{ line: [full] }]);
  });

  it('at the apex of an arc that is not level in its middle stands where it is', () => {
    editor.addMove({ arc: 225 });
    editor.rotate((all) => [...all, full], 180);
    expect(moves()).toEqual([{ arc: 225, apex: [full], at: 180 }]);
  });
});

describe('a move', () => {
  it('comes after the chosen one', () => {
    editor.addMove({ arc: 90 });
    editor.addMove({ arc: 180 });
    editor.choose(0, 0);
    editor.addMove({ pivot: true });
    expect(moves()).toEqual([{ arc: 90 }, { pivot: true }, { arc: 180 }]);
  });

  it('is moved, doubled and deleted', () => {
    editor.addMove({ arc: 90 });
    editor.addMove({ arc: 180 });
    editor.moveMove(-1);
    editor.duplicateMove();
    expect(moves()).toEqual([{ arc: 180 }, { arc: 180 }, { arc: 90 }]);
    editor.deleteMove();
    expect(moves()).toEqual([{ arc: 180 }, { arc: 90 }]);
  });
});

describe('an item', () => {
  it('comes after the chosen one, a figure never after an overall mark', () => {
    editor.set({ name: 'a' });
    editor.insertOverall('mark');
    editor.insertFigure();
    editor.set({ name: 'b' });
    expect(names()).toEqual(['a', 'b', 'mark']);
  });

  it('is put earlier, doubled with its moves, and deleted', () => {
    editor.addMove({ arc: 90 });
    editor.set({ name: 'a' });
    editor.duplicateItem();
    editor.set({ name: 'b' });
    editor.moveItem(-1);
    expect(names()).toEqual(['b', 'a']);
    expect(moves()).toEqual([{ arc: 90 }]);
    editor.deleteItem();
    expect(names()).toEqual(['a']);
    editor.deleteItem();
    expect(editor.item).toBeUndefined();
  });
});

describe('taking back', () => {
  it('takes a typed word back as a word', () => {
    for (const text of ['1', '14', '14.5']) editor.set({ k: text }, 'k');
    editor.undo();
    expect(editor.item?.k).toBe('');
    editor.redo();
    expect(editor.item?.k).toBe('14.5');
  });

  it('brings back what was chosen then', () => {
    editor.addMove({ arc: 90 });
    editor.addMove({ arc: 180 });
    editor.deleteMove();
    editor.choose(0, -1);
    editor.undo();
    expect(moves()).toHaveLength(2);
    expect(editor.at).toEqual({ item: 0, move: 1 });
  });

  it('ends at the sheet that was opened', () => {
    editor.open({ items: [], inverted: true });
    editor.undo();
    expect(editor.sheet).toEqual({ items: [], inverted: true });
  });
});
