/** jsdom has no layout, so nothing ever changes its size. */
export class StillObserver {
  observe() {}
  unobserve() {}
  disconnect() {}
}
