import { expect, it } from 'vitest';
import { FieldReader } from '../../../../core/video/index/second-fields.ts';

const header = (name: string, value: number): string =>
  `[trace_headers @ 0x55e0c2c0a8c0] 24          ${name.padEnd(50)} ${value.toString(2)} = ${value}`;
const PACKET = '[trace_headers @ 0x55e0c2c0a8c0] Packet: 1513 bytes, pts 1800, dts -1800, duration 1800.';

/** Lines of a slice: of a whole frame, or of the field on the upper or the lower lines. */
function slice(frameNumber: number, kind: 'frame' | 'top' | 'bottom', unit = 1): string[] {
  const begin = [header('nal_unit_type', unit), header('frame_num', frameNumber)];
  const field = header('field_pic_flag', kind === 'frame' ? 0 : 1);
  return kind === 'frame'
    ? [...begin, field]
    : [...begin, field, header('bottom_field_flag', kind === 'bottom' ? 1 : 0)];
}

function secondFields(packets: readonly (readonly string[])[]): number[] {
  const reader = new FieldReader();
  for (const lines of packets) for (const line of [PACKET, ...lines]) reader.read(line);
  return [...reader.secondFields];
}

it('two fields of one number on different lines are one picture, also around whole frames', () => {
  const packets = [slice(0, 'top', 5), slice(0, 'bottom'), slice(1, 'frame'), slice(2, 'bottom'), slice(2, 'top')];
  expect(secondFields(packets)).toEqual([1, 4]);
});

it('the next picture may have the same number when no other picture needs it', () => {
  expect(secondFields([slice(2, 'top'), slice(2, 'bottom'), slice(2, 'top'), slice(2, 'bottom')])).toEqual([1, 3]);
});

it('a field whose other one is missing begins a picture', () => {
  expect(secondFields([slice(1, 'top'), slice(2, 'top'), slice(2, 'bottom')])).toEqual([2]);
  expect(secondFields([slice(1, 'top'), slice(2, 'bottom'), slice(3, 'frame'), slice(3, 'bottom')])).toEqual([]);
});

it('fields in one packet are a picture of their own, and slices of one field are one field', () => {
  expect(secondFields([[...slice(1, 'top'), ...slice(1, 'bottom')], slice(2, 'frame')])).toEqual([]);
  const both = [...slice(1, 'bottom'), ...slice(1, 'bottom'), ...slice(1, 'bottom')];
  expect(secondFields([[...slice(1, 'top'), ...slice(1, 'top')], both])).toEqual([1]);
});

it('what stands beside the picture does not count', () => {
  expect(secondFields([slice(1, 'top'), [...slice(1, 'bottom', 19)], slice(1, 'bottom')])).toEqual([2]);
});

it('a clip of whole frames says so in its first header', () => {
  const reader = new FieldReader();
  reader.read(header('frame_mbs_only_flag', 1));
  expect(reader.framesOnly).toBe(true);
});
