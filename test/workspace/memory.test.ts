import { describe, expect, it } from 'vitest';
import { Workspace } from '../../server/src/workspace/workspace.ts';

const spec = (index: number): string => `use "shared.piece"\nlength a${index} = house\npiece p${index} {\n  outline rectangle a${index} by 3\n}\n`;

describe('what is held of files that no editor shows', () => {
  it('is nothing once a file is closed that is on no disk', () => {
    const workspace = new Workspace();
    for (let index = 0; index < 1000; index++) {
      workspace.open(`f${index}.piece`, `length a = ${index}\n`);
      workspace.snapshot(`f${index}.piece`);
      workspace.close(`f${index}.piece`);
    }
    expect(workspace.size).toEqual({ patterns: 0, trees: 0, paths: 0 });
  });

  it('is little of a thousand files that lie on disk, whoever asks about them', () => {
    const workspace = new Workspace();
    workspace.setDisk('shared.piece', 'length house = 4\n');
    for (let index = 0; index < 1000; index++) {
      workspace.setDisk(`f${index}.piece`, spec(index));
      workspace.open(`f${index}.piece`, spec(index));
      expect(workspace.snapshot(`f${index}.piece`)?.pattern.value(`a${index}`, new Map())?.amount.valueOf()).toBe(101.6);
      workspace.close(`f${index}.piece`);
    }
    expect(workspace.usersOf('shared.piece')).toHaveLength(1000);
    const { patterns, trees } = workspace.size;
    expect(patterns).toBeLessThanOrEqual(8);
    expect(trees).toBeLessThanOrEqual(50);
  });

  it('keeps what an open pattern uses, so that an edit computes little', () => {
    const workspace = new Workspace();
    workspace.open('main.piece', 'use "shared.piece"\nlength a = house\n');
    workspace.setDisk('shared.piece', 'length house = 4\n');
    const before = workspace.snapshot('main.piece')?.pattern.world.files[1];
    for (let index = 0; index < 200; index++) {
      workspace.setDisk(`f${index}.piece`, `length a = ${index}\n`);
      workspace.snapshot(`f${index}.piece`);
    }
    workspace.open('main.piece', 'use "shared.piece"\nlength a = house + 1\n');
    expect(workspace.snapshot('main.piece')?.pattern.world.files[1]).toBe(before);
  });

  it('tells a pattern that is as it was by one object, though it is held no more', () => {
    const workspace = new Workspace();
    workspace.setDisk('a.piece', 'use "b.piece"\n');
    workspace.setDisk('b.piece', 'length b = 1\n');
    const state = workspace.stateOf('a.piece');
    for (let index = 0; index < 100; index++) {
      workspace.setDisk(`f${index}.piece`, 'length a = 1\n');
      workspace.snapshot(`f${index}.piece`);
    }
    expect(workspace.heldSnapshot('a.piece')).toBeUndefined();
    expect(workspace.stateOf('a.piece')).toBe(state);
    workspace.setDisk('b.piece', 'length b = 2\n');
    expect(workspace.stateOf('a.piece')).not.toBe(state);
    expect(workspace.snapshot('a.piece')?.pattern.value('b', new Map())?.amount.valueOf()).toBe(50.8);
  });

  it('is bounded for paths at which nothing is, as they are typed', () => {
    const workspace = new Workspace();
    for (let index = 0; index < 5000; index++) {
      const path = `folder/a-file-${index}.piece`;
      workspace.open('main.piece', `use "${path}"\n`);
      workspace.snapshot('main.piece');
      for (const missing of workspace.wanted('main.piece')) workspace.setDisk(missing, undefined);
    }
    expect(workspace.size.paths).toBeLessThanOrEqual(1002);
  });
});
