import { createAnswerer } from "./live.mjs";

const answer = createAnswerer();
self.onmessage = ({ data }) => self.postMessage(answer(data));
