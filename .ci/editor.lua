-- The session that .ci/editor runs inside Neovim. Any failure leaves with an exit code that is not 0.

local ended

local function start()
  local settings = {
    name = 'untaught',
    cmd = { vim.env.UNTAUGHT, 'editor' },
    root_dir = vim.fn.getcwd(),
    on_exit = function(code) ended = code end,
  }
  if vim.lsp.start then
    return vim.lsp.start(settings)
  end
  -- Before Neovim 0.8.
  local id = vim.lsp.start_client(settings)
  vim.lsp.buf_attach_client(0, id)
  return id
end

local function messages()
  local found = {}
  for _, item in ipairs(vim.diagnostic.get(0)) do
    table.insert(found, item.message)
  end
  return table.concat(found, '\n')
end

local function wait(what, holds)
  if not vim.wait(30000, holds, 20) then
    error('waited in vain: ' .. what .. '\nnow there is:\n' .. messages())
  end
end

local function shown(part)
  return function() return messages():find(part, 1, true) ~= nil end
end

local function gone(part)
  return function() return messages():find(part, 1, true) == nil end
end

-- Applies the action of that title for the word at a place.
local function act(line, column, title)
  local place = { line = line, character = column }
  local params = {
    textDocument = vim.lsp.util.make_text_document_params(),
    range = { start = place, ['end'] = place },
    context = { diagnostics = {} },
  }
  local titles = {}
  for _, answer in pairs(vim.lsp.buf_request_sync(0, 'textDocument/codeAction', params, 20000) or {}) do
    for _, action in ipairs(answer.result or {}) do
      table.insert(titles, action.title)
      if action.title:find(title, 1, true) then
        return vim.lsp.util.apply_workspace_edit(action.edit, 'utf-16')
      end
    end
  end
  error('no action ' .. title .. ' among: ' .. table.concat(titles, '; '))
end

local function session()
  local id = start()
  assert(id, 'the server starts')
  wait('the diagnostics of the story', shown('“huge” is untaught at lesson 20'))
  assert(shown('“night” is untaught')(), messages())

  -- Edit: a word goes, another comes, with letters of several bytes before it.
  vim.api.nvim_buf_set_text(0, 1, 16, 1, 21, { '😀 e\u{301} ten, Dee' })
  wait('night is gone', gone('“night”'))
  wait('Dee is there', shown('“dee” is untaught'))

  -- Code actions: another word, and a name declared in new front matter.
  act(0, 11, 'Replace “huge” with “big”')
  wait('huge is swapped', gone('“huge”'))
  assert(vim.api.nvim_buf_get_lines(0, 0, 1, true)[1] == 'Tam had a big hat.')
  local line = vim.api.nvim_buf_get_lines(0, 1, 2, true)[1]
  local column = vim.str_utfindex(line, line:find('Dee', 1, true) - 1)
  local _, units = vim.str_utfindex(line, line:find('Dee', 1, true) - 1)
  act(1, units or column, 'the name “Dee”')
  wait('Dee is told beforehand', gone('“dee”'))

  -- A change of the settings, saved by somebody else, holds after the next save.
  vim.fn.writefile({ 'format: 1', 'scope: starter', 'lesson: 1' }, 'untaught.yaml')
  vim.cmd('write')
  wait('the earlier lesson holds', shown('at lesson 1:'))

  -- Close, and say goodbye.
  local buffer = vim.api.nvim_get_current_buf()
  vim.cmd('enew | bdelete! ' .. buffer)
  vim.lsp.stop_client(id)
  wait('the server ends', function() return ended ~= nil end)
  assert(ended == 0, 'it ends cleanly, not with ' .. tostring(ended))
end

local fine, problem = pcall(session)
if not fine then
  io.stderr:write(tostring(problem) .. '\n')
  vim.cmd('cquit 1')
end
vim.cmd('qall!')
