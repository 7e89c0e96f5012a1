type Rooms = Readonly<Record<string, readonly string[]>>;
export const core: Rooms;
export const platforms: Rooms;
export const edges: Rooms;
export const rooms: Rooms;
