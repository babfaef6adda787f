/** The only channel between the window and the main process, each way. */
export const frameChannel = 'tiltwright:frame';

/** Under this name the page finds `send` and `receive`; in a plain browser there is nothing there. */
export const preloadName = 'tiltwright';
